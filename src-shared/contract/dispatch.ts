import type { z } from 'zod';
import { type Failure, failureCodes, HostFailure } from './failures.ts';
import { type RequestName, requestNames } from './names.ts';
import { type Output, requests } from './requests.ts';

/** The host's side of the contract: a function for every request, given what the schema let through. */
export type Handlers = {
  readonly [Name in RequestName]: (input: z.output<(typeof requests)[Name]['input']>) => Output<Name> | Promise<Output<Name>>;
};

/** What comes back over either transport. */
export type Reply = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly failure: Failure };

const isRequest = (name: unknown): name is RequestName => (requestNames as readonly unknown[]).includes(name);

const refused = (code: Failure['code'], sentence: string = failureCodes[code]): Reply => ({ ok: false, failure: { code, sentence } });

/**
 * Answers one request: checks its name and input, runs the handler, checks the output. Never throws; a fault that nobody foresaw is
 * handed to `onFault` and answered as `internal`.
 * `dispatch(handlers, 'tunings.remove', { id: '' }, …)` → `{ ok: false, failure: { code: 'bad-input', … } }`.
 */
export async function dispatch(handlers: Handlers, name: unknown, input: unknown, onFault: (fault: unknown) => void): Promise<Reply> {
  if (!isRequest(name)) return refused('unknown-request');
  const { input: inputSchema, output: outputSchema } = requests[name];
  const parsed = inputSchema.safeParse(input);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    return refused('bad-input', issue === undefined ? undefined : `${issue.message} (${issue.path.join('.') || 'the whole entry'})`);
  }
  try {
    const handler = handlers[name] as (input: unknown) => unknown;
    return { ok: true, value: outputSchema.parse(await handler(parsed.data)) };
  } catch (fault) {
    if (fault instanceof HostFailure) return refused(fault.code, fault.message);
    onFault(fault);
    return refused('internal');
  }
}
