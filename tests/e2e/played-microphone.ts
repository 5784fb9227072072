import type { Page } from 'playwright/test';

/** What a played microphone adds to the page. A tone is its pitch in hertz and its level; what is not named falls silent. A strum fades, its strings one after the other. */
type Played = {
  playTones: (tones: readonly (readonly [hertz: number, level: number])[], isStrum: boolean) => void;
  /** The noise of a room, at a peak level. */
  makeNoise: (level: number) => void;
  unplug: () => void;
  plugIn: () => void;
  refuse: () => void;
};

/** Puts in place of the page's microphones one that a test plays, unplugs and refuses: tones, and the faint hiss without which an input counts as dead. */
export const playMicrophone = (page: Page): Promise<void> =>
  page.evaluate(() => {
    let gone: 'NotFoundError' | 'NotAllowedError' | null = null;
    let play: Played['playTones'] | null = null;
    let makeNoise: Played['makeNoise'] | null = null;
    let lose: (() => void) | null = null;
    Object.assign(window, {
      playTones: (tones, isStrum) => play?.(tones, isStrum),
      makeNoise: (level) => makeNoise?.(level),
      unplug: () => {
        gone = 'NotFoundError';
        lose?.();
      },
      plugIn: () => {
        gone = null;
        navigator.mediaDevices.dispatchEvent(new Event('devicechange'));
      },
      refuse: () => {
        gone = 'NotAllowedError';
      },
    } satisfies Played);
    const input = { kind: 'audioinput', deviceId: 'pickup', label: 'Pickup', groupId: '', toJSON: () => ({}) } as const;
    navigator.mediaDevices.enumerateDevices = async () => (gone === 'NotFoundError' ? [] : [input]);
    navigator.mediaDevices.getUserMedia = async () => {
      if (gone !== null) throw new DOMException('gone', gone);
      const context = new AudioContext();
      const buffer = context.createBuffer(1, context.sampleRate, context.sampleRate);
      buffer.getChannelData(0).forEach((_, index, samples) => {
        samples[index] = (Math.random() - 0.5) * 0.0006;
      });
      const destination = context.createMediaStreamDestination();
      const hiss = new AudioBufferSourceNode(context, { buffer, loop: true });
      hiss.connect(destination);
      hiss.start();
      const noise = new GainNode(context, { gain: 0 });
      hiss.connect(noise).connect(destination);
      makeNoise = (level) => noise.gain.setValueAtTime(level / 0.0003, context.currentTime);
      const strings = Array.from({ length: 4 }, () => {
        const tone = new OscillatorNode(context, { type: 'sawtooth' });
        const gain = new GainNode(context, { gain: 0 });
        tone.connect(gain).connect(destination);
        tone.start();
        return { tone, gain };
      });
      play = (tones, isStrum) => {
        for (const [index, { tone, gain }] of strings.entries()) {
          const [hertz, level] = tones[index] ?? [tone.frequency.value, 0];
          const at = context.currentTime + (isStrum ? 0.012 * index : 0);
          tone.frequency.value = hertz;
          gain.gain.cancelScheduledValues(0);
          gain.gain.setValueAtTime(level, at);
          if (isStrum) gain.gain.setTargetAtTime(0, at, 2);
        }
      };
      const [track] = destination.stream.getAudioTracks();
      if (track === undefined) throw new Error('no track');
      Object.defineProperty(track, 'label', { value: 'Pickup' });
      lose = () => {
        track.stop();
        track.dispatchEvent(new Event('ended'));
      };
      return destination.stream;
    };
  });

const inPage = (page: Page, what: Exclude<keyof Played, 'playTones' | 'makeNoise'>) =>
  page.evaluate((name) => (window as unknown as Played)[name](), what);
export const unplug = (page: Page): Promise<void> => inPage(page, 'unplug');
export const plugIn = (page: Page): Promise<void> => inPage(page, 'plugIn');
export const refuse = (page: Page): Promise<void> => inPage(page, 'refuse');

/** Lets the room be noisy, at a peak level; 0 = no more. */
export const makeNoise = (page: Page, level: number): Promise<void> =>
  page.evaluate((peak) => (window as unknown as Played).makeNoise(peak), level);

/** Plays one tone, or none. */
export const play = (page: Page, hertz: number, level: number): Promise<void> => playAll(page, [[hertz, level]]);
const playAll = (page: Page, tones: readonly (readonly [number, number])[], isStrum = false): Promise<void> =>
  page.evaluate(([all, fades]) => (window as unknown as Played).playTones(all, fades), [tones, isStrum] as const);

/** A tone out of silence: what rings on without an attack is no pluck. */
export async function pluck(page: Page, hertz: number): Promise<void> {
  await play(page, hertz, 0);
  await page.waitForTimeout(400);
  await play(page, hertz, 0.2);
  await page.waitForTimeout(600);
}

/** All strings, ringing for so long that they can be read, and silence after. */
export async function strum(page: Page, hertz: readonly number[]): Promise<void> {
  await playAll(page, []);
  await page.waitForTimeout(500);
  await playAll(
    page,
    hertz.map((one) => [one, 0.08]),
    true,
  );
  await page.waitForTimeout(2200);
  await playAll(page, []);
}
