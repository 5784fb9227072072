import { HostFailure } from '#shared/contract/index.ts';

/** SQLite's result codes that a player can do something about (sqlite.org/rescode.html); the low byte is the primary code. */
const busy = 5;
const locked = 6;
const corrupt = 11;
const full = 13;
const notADatabase = 26;
const foreignKeyConstraint = 787;

const resultCode = (fault: unknown): number | null =>
  fault instanceof Error && 'errcode' in fault && typeof fault.errcode === 'number' ? fault.errcode : null;

/** Whether this error says that the file is no longer a sound database. */
export function saysDamaged(fault: unknown): boolean {
  const primary = (resultCode(fault) ?? 0) & 0xff;
  return primary === corrupt || primary === notADatabase;
}

/** The error as a failure that the player can act on, or null where it is none of those. */
export function asFailure(fault: unknown): HostFailure | null {
  if (fault instanceof HostFailure) return fault;
  const code = resultCode(fault);
  if (code === null) return null;
  if (code === foreignKeyConstraint) return new HostFailure('not-found', 'Something that this entry needs is no longer in the library.');
  if (saysDamaged(fault))
    return new HostFailure(
      'library-damaged',
      'The library file is damaged. Start Stillstring again: it sets the file aside and offers the last backup.',
    );
  const primary = code & 0xff;
  if (primary === busy || primary === locked) return new HostFailure('library-busy');
  return primary === full ? new HostFailure('disk-full') : null;
}
