import type { Migration } from 'kysely/migration';
import { library } from './0001-library.ts';
import { log } from './0002-log.ts';
import { remarks } from './0003-remarks.ts';
import { hardware } from './0004-hardware.ts';
import { judgements } from './0005-judgements.ts';

/** Every migration by its numbered name, in the order they run. A published one is never changed; a change of the tables is a new row here. */
export const migrations: Readonly<Record<string, Migration>> = {
  '0001-library': library,
  '0002-log': log,
  '0003-remarks': remarks,
  '0004-hardware': hardware,
  '0005-judgements': judgements,
};
