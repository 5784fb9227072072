/** What a source of sound needs of the browser; tests bring their own. */
export type AudioWorld = {
  readonly openContext: (sampleRateHertz: number | null) => AudioContext;
  /** Where keys and clicks arrive. */
  readonly page: EventTarget;
};

/** A context at the given rate, so that nothing is resampled; at the output's own rate where that one is unknown or out of range. */
export const openContext = (sampleRateHertz: number | null): AudioContext => {
  if (sampleRateHertz !== null) {
    try {
      return new AudioContext({ sampleRate: sampleRateHertz, latencyHint: 'interactive' });
    } catch (error) {
      if (!(error instanceof DOMException && error.name === 'NotSupportedError')) throw error;
    }
  }
  return new AudioContext({ latencyHint: 'interactive' });
};

const gestures = ['pointerdown', 'keydown'] as const;

/**
 * Tells whether a context is asleep, now and at each change, and wakes it by the next key or click anywhere.
 * Returns the unsubscriber. A closed context is not asleep.
 */
export const watchSleep = (context: AudioContext, listener: (asleep: boolean) => void, page: EventTarget): (() => void) => {
  const isAsleep = () => context.state !== 'running' && context.state !== 'closed';
  const wake = () => {
    // A refusal leaves it asleep, which is what the listener has been told.
    if (isAsleep()) context.resume().catch(() => listener(isAsleep()));
  };
  const tell = () => listener(isAsleep());
  context.addEventListener('statechange', tell);
  for (const gesture of gestures) page.addEventListener(gesture, wake);
  tell();
  return () => {
    context.removeEventListener('statechange', tell);
    for (const gesture of gestures) page.removeEventListener(gesture, wake);
  };
};
