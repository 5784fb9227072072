import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import { daysSinceFitted } from '#shared/strung/index.ts';
import { presentHertz } from '#shared/log/index.ts';
import { createVirtualInstrument, type VirtualInstrument } from '../audio/index.ts';
import { tuningOn } from './strings.ts';

/** What the ids of the demo library's instruments begin with. */
const demoIds = 'demo-';

/** Whether an instrument may be played on the screen: what is read of it goes into its log, so only one that is nobody's own. */
export const isPlayedOnScreen = ({ instrument }: Overview, status: Output<'library.status'> | undefined): boolean =>
  instrument.id.startsWith(demoIds) || typeof status?.demoMicrophone === 'string';

export type { VirtualInstrument } from '../audio/index.ts';

const made = new Map<string, VirtualInstrument>();

/** The strings of an instrument on the screen, made where the log has them last and kept until the page is loaded anew. */
export function virtualInstrument(overview: Overview, settings: Settings): VirtualInstrument {
  const { instrument, stringSet, lastRetune, lastReadings, turnedSinceHeard } = overview;
  const kept = made.get(stringSet.id);
  if (kept !== undefined) return kept;
  const assumed = lastRetune?.wantedHertz ?? tuningOn(overview, null, settings)?.hertz ?? [];
  const fresh = createVirtualInstrument({
    label: `${instrument.name} on the screen`,
    setup: {
      scaleLengthMillimetres: instrument.scaleLengthMillimetres,
      courses: stringSet.courses,
      presentHertz: presentHertz(lastReadings, assumed, turnedSinceHeard),
      daysSinceChange: daysSinceFitted(stringSet, Date.now()),
      seed: seedOf(stringSet.id),
    },
  });
  made.set(stringSet.id, fresh);
  return fresh;
}

/** The same strings behave alike every time. */
const seedOf = (id: string): number => Array.from(id).reduce((sum, letter) => (sum * 31 + (letter.codePointAt(0) ?? 0)) % 2 ** 31, 7);
