import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Host } from '#shared/contract/index.ts';
import { beginWhich, endWhich, which } from '../../../src-renderer/stores/which.ts';
import { instrumentOf, settings, tuningOf } from '../screens/wren.ts';

vi.mock('../../../src-renderer/stores/session.ts', () => ({
  listen: () => Promise.resolve(),
  onPitch: () => () => undefined,
  stopListening: () => undefined,
  cueLanded: () => undefined,
}));

const shown = instrumentOf('ukulele-tenor-high-g', 'Wren');
const lantern = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4');
const retuned = { ...shown, instrument: { ...shown.instrument, tuningId: lantern.id } };
const host = { ask: () => Promise.resolve([retuned]), on: () => () => undefined } as unknown as Host;
const begin = () => beginWhich({ host, overview: shown, tunings: [lantern], settings, sound: { inputLabel: null, channel: 0 } });

describe('what am I in?', () => {
  afterEach(endWhich);

  test('starts from the tuning of the retune that has just ended, whatever the page was told before', async () => {
    await begin();
    expect(which.getState().now?.state.tuning.name).toBe('Lantern');
    expect(which.getState().now?.overview).toBe(retuned);
  });

  test('the page was left before the library answered: nothing is begun', async () => {
    const beginning = begin();
    endWhich();
    await beginning;
    expect(which.getState().now).toBeNull();
  });
});
