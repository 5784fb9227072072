import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createVoice } from '../../../src-renderer/audio/speech.ts';

class FakeUtterance extends EventTarget {
  voice: unknown = null;
  lang = '';
  readonly text: string;
  constructor(text: string) {
    super();
    this.text = text;
  }
}
class FakeSynthesis extends EventTarget {
  voices: readonly { lang: string; localService: boolean }[] = [];
  spoken: FakeUtterance[] = [];
  cancelled = 0;
  getVoices = () => this.voices;
  speak = (words: FakeUtterance) => void this.spoken.push(words);
  cancel = () => void (this.cancelled += 1);
}

const opened = (voices: FakeSynthesis['voices']) => {
  const synthesis = new FakeSynthesis();
  synthesis.voices = voices;
  const voice = createVoice({ synthesis: synthesis as never, utterance: (text) => new FakeUtterance(text) as never });
  return { synthesis, voice };
};
const english = { lang: 'en-GB', localService: true };

describe('a spoken instruction', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test('needs an English voice on this computer: one that speaks over the network is not used', () => {
    expect(opened([english]).voice.isAvailable()).toBe(true);
    expect(opened([{ lang: 'en-US', localService: false }]).voice.isAvailable()).toBe(false);
    expect(opened([{ lang: 'de-DE', localService: true }]).voice.isAvailable()).toBe(false);
    expect(createVoice({ synthesis: null, utterance: () => ({}) as never }).isAvailable()).toBe(false);
  });

  test('voices that a browser names late are told', () => {
    const { synthesis, voice } = opened([]);
    const told: boolean[] = [];
    voice.onAvailable((isAvailable) => told.push(isAvailable));
    synthesis.voices = [english];
    synthesis.dispatchEvent(new Event('voiceschanged'));
    expect(told).toEqual([true]);
  });

  test('holds the microphone closed from before its first word until it has ended, and no longer', () => {
    const { synthesis, voice } = opened([english]);
    const holds: number[] = [];
    voice.say('Course 2: loosen.', (seconds) => holds.push(seconds));
    expect(holds).toHaveLength(1);
    vi.advanceTimersByTime(1000);
    expect(holds).toHaveLength(6);
    // Each hold outlasts the time until the next one: there is no gap through which the voice is heard.
    expect(Math.min(...holds)).toBeGreaterThan(0.2);
    synthesis.spoken[0]?.dispatchEvent(new Event('end'));
    vi.advanceTimersByTime(5000);
    expect(holds).toHaveLength(6);
  });

  test('a newer sentence takes the place of an older one', () => {
    const { synthesis, voice } = opened([english]);
    const held = { first: 0, second: 0 };
    voice.say('Course 2: loosen.', () => void (held.first += 1));
    voice.say('Stop: loosen it.', () => void (held.second += 1));
    vi.advanceTimersByTime(1000);
    expect(held).toEqual({ first: 1, second: 6 });
    expect(synthesis.spoken.map(({ text }) => text)).toEqual(['Course 2: loosen.', 'Stop: loosen it.']);
    expect(synthesis.cancelled).toBe(2);
  });

  test('a voice that fails without a word does not keep the microphone closed for ever', () => {
    const { voice } = opened([english]);
    let holds = 0;
    voice.say('Course 2: loosen.', () => void (holds += 1));
    vi.advanceTimersByTime(13_000);
    const until = holds;
    vi.advanceTimersByTime(10_000);
    expect(holds).toBe(until);
  });
});
