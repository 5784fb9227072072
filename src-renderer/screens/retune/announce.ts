import { courseNumber } from '#shared/instruments/index.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { currentOf, instruction, wayOf } from './sentences.ts';
import { outcomeOf, touchWords } from './strum-words.ts';

/** What of a retune may be worth saying: facts that change seldom, and no running numbers. */
export type Scene = {
  readonly place: number | null;
  /** Which way the string has to go, once it was heard; null before that and near its aim. */
  readonly way: 'tighten' | 'loosen' | null;
  readonly notice: string | null;
  readonly stopped: string | null;
  readonly paused: boolean;
  /** Why nothing can be heard, as a sentence; null where the input is well. */
  readonly trouble: string | null;
  readonly instruction: string;
  /** What the last strum told, until something is plucked or turned; null before one and after. */
  readonly outcome: string | null;
  /** `Course 3 is there.` for the course that landed last; null before one has. */
  readonly landed: string | null;
};

/** The scene that a retune and its input make. */
export function sceneOf(now: Retuning, trouble: string | null): Scene {
  const current = currentOf(now);
  const last = now.coach.strings[now.coach.visited.at(-1) ?? -1];
  const outcome = outcomeOf(now);
  const isLanded = last !== undefined && last.landedAtSeconds !== null;
  return {
    place: now.coach.queue[0] ?? null,
    way: current === null || current.sounding === null ? null : wayOf(current, now.coach.setup.toleranceCents),
    notice: now.coach.doubt?.sentence ?? current?.visit?.notice ?? null,
    stopped: now.coach.stopped,
    paused: now.coach.paused,
    trouble,
    instruction: instruction(now),
    outcome: outcome === null ? null : [touchWords(outcome.touches), outcome.rest].filter((part) => part !== '').join(' '),
    landed: isLanded ? `Course ${courseNumber(last.course, now.to.pitches.length)} is there.` : null,
  };
}

/** What was said last: the scene then, the way that was named for the course, and when. */
export type Said = { readonly scene: Scene; readonly way: Scene['way']; readonly atMilliseconds: number };

/** Nothing is said sooner than this after the last sentence; what has changed by then is said then. */
export const restMilliseconds = 2000;

type Heard = { readonly said: Said; readonly sentence: string | null };

/**
 * Whether a scene is worth a sentence, and which. What matters most comes first: a caution, an input that is gone, a peg turned the wrong way,
 * the next course. `said` null = nothing was said yet.
 */
export function announce(said: Said | null, scene: Scene, atMilliseconds: number): Heard {
  if (said === null) return say(scene, instructed(scene), atMilliseconds);
  const before = said.scene;
  // A notice that has gone may come again.
  const kept: Said = before.notice !== null && scene.notice === null ? { ...said, scene: { ...before, notice: null } } : said;
  if (atMilliseconds - said.atMilliseconds < restMilliseconds) return { said: kept, sentence: null };
  const sentence = worthSaying(kept, scene);
  return sentence === null
    ? { said: kept, sentence }
    : say(scene, sentence, atMilliseconds, sentence === scene.notice ? kept.way : undefined);
}

/** A notice that stood in the scene but was not what was said is still to be said. */
const say = (scene: Scene, sentence: string, atMilliseconds: number, way = wayIn(scene.instruction)): Heard => ({
  said: { scene: { ...scene, notice: sentence === scene.notice ? sentence : null }, way, atMilliseconds },
  sentence,
});

/** The way that an instruction names. */
const wayIn = (sentence: string): Scene['way'] =>
  sentence.includes(': tighten') ? 'tighten' : sentence.includes(': loosen') ? 'loosen' : null;

const instructed = ({ trouble, stopped, instruction: next }: Scene): string => trouble ?? stopped ?? next;

function worthSaying({ scene: before, way }: Said, scene: Scene): string | null {
  if (scene.stopped !== null) return scene.stopped === before.stopped ? null : scene.stopped;
  if (scene.trouble !== null && scene.trouble !== before.trouble) return scene.trouble;
  if (scene.trouble === null && before.trouble !== null) return `Listening again. ${scene.instruction}`;
  if (scene.paused !== before.paused || before.stopped !== null) return scene.instruction;
  if (scene.outcome !== null && scene.outcome !== before.outcome) return scene.outcome;
  if (scene.place !== before.place) return withLanding(before, scene);
  if (scene.notice !== null && scene.notice !== before.notice) return scene.notice;
  return scene.way !== null && scene.way !== way ? scene.instruction : null;
}

const withLanding = (before: Scene, scene: Scene): string =>
  scene.landed === null || scene.landed === before.landed ? scene.instruction : `${scene.landed} ${scene.instruction}`;
