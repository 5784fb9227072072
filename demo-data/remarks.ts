// What the invented player wrote down beside the year's retunes: notes, a warning seen, a reading taken back, a reminder put off.
import type { LibraryFile } from '#shared/exchange/index.ts';
import type { LogRows } from '#shared/log/index.ts';

const minute = 60_000;
const day = 86_400_000;

type Remarks = Pick<LibraryFile, 'notes' | 'stringChanges' | 'warningsSeen' | 'snoozes' | 'corrections' | 'changeCorrections'>;
type Log = Pick<LibraryFile, 'retunes' | 'turns' | 'readings'>;

const note = (number: number, instrumentId: string, daysAgo: number, words: string): Remarks['notes'][number] => ({
  id: `demo-note-${number}`,
  instrumentId,
  at: daysAgo * day,
  words,
  replaces: null,
});

const notes = [
  note(1, 'demo-wren', 330, 'Home from Lantern E♭, course 3 was flat again after two songs.'),
  note(2, 'demo-wren', 160, 'From today each string is left a little off, to settle onto its pitch.'),
  note(3, 'demo-wren', 118, 'New fluorocarbon. Stretched each string by hand and tuned four times in the first days.'),
  note(4, 'demo-wren', 60, 'The new set has settled down.'),
  note(5, 'demo-moth', 204, 'Course 1 takes longest of all four: play something else first.'),
  note(6, 'demo-moth', 61, 'Left by the stove in the afternoon: all four sharp.'),
  note(7, 'demo-rook', 180, 'Home from open D, courses 1 and 2 go flat for half an hour.'),
  note(8, 'demo-rook', 12, 'Course 2 gave way in open D. Next time: look at the knot at the bridge.'),
  note(9, 'demo-pip', 8, 'Played out of doors; held well.'),
  note(10, 'demo-sedge', 9, 'Put away after the supper. Hear it before it is packed again.'),
];

/** A reading of Finch, two evenings ago, that was a knock on the table. */
const mistaken = ({ readings }: LogRows): Remarks['corrections'] => {
  const heard = readings.find(({ stringSetId, at }) => stringSetId === 'demo-finch-1' && at < 3 * day && at > day);
  if (heard === undefined) throw new RangeError('Finch was heard two evenings ago');
  return [{ id: 'demo-correction-1', readingId: heard.id, at: heard.at - minute, isWrong: true }];
};

/** The log with the remarks in it; times are milliseconds ago, like all times of the demo. */
export const withRemarks = (log: LogRows): Log & Remarks => ({
  retunes: [...log.retunes],
  turns: [...log.turns],
  readings: [...log.readings],
  notes,
  stringChanges: [],
  warningsSeen: [{ id: 'demo-seen-1', stringSetId: 'demo-rook-1', at: 12 * day - 90 * minute, course: 4, string: 0, kind: 'slips' }],
  snoozes: [{ id: 'demo-snooze-1', stringSetId: 'demo-sedge-1', at: 7 * day, until: 5 * day }],
  corrections: mistaken(log),
  changeCorrections: [],
});
