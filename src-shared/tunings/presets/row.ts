import { parsePitches, semitonesBetween, type SpelledPitch } from '#shared/music/index.ts';

/** A starter tuning: a plain trade name (what the open courses make, or what moved), its pitches and the home it is written for, one a course. */
export type TuningPreset = {
  readonly id: string;
  readonly name: string;
  readonly pitches: readonly SpelledPitch[];
  readonly home: readonly SpelledPitch[];
  /** What kind of tuning it is, worked out from its moves. */
  readonly tags: readonly string[];
};

/** A row from text. Throws RangeError where a pitch is none, or where the two have not as many courses. */
export function row(id: string, name: string, pitches: string, home: string): TuningPreset {
  const [to, from] = [pitchesOf(pitches), pitchesOf(home)];
  if (to.length !== from.length) throw new RangeError(`${id} has ${to.length} courses, its home ${from.length}`);
  return { id, name, pitches: to, home: from, tags: tagsOf(name, to, from) };
}

function tagsOf(name: string, to: readonly SpelledPitch[], from: readonly SpelledPitch[]): readonly string[] {
  const steps = from.map((pitch, course) => semitonesBetween(pitch, to[course] ?? pitch)).filter((step) => step !== 0);
  return [
    ...(name.startsWith('Open ') ? ['open chord'] : []),
    ...(steps.length === 1 ? ['one course moves'] : []),
    ...(steps.length > 0 && steps.every((step) => step < 0) ? ['loosened only'] : []),
  ];
}

function pitchesOf(text: string): readonly SpelledPitch[] {
  const pitches = parsePitches(text);
  if ('notAPitch' in pitches) throw new RangeError(`not a pitch in a starter tuning: ${pitches.notAPitch}`);
  return pitches;
}
