import { describe, expect, test } from 'vitest';
import type { Host } from '#shared/contract/index.ts';
import { freshOverview } from '../../../src-renderer/stores/fresh.ts';
import { instrumentOf } from '../screens/wren.ts';

const hostWith = (all: unknown): Host => ({ ask: () => Promise.resolve(all), on: () => () => undefined }) as unknown as Host;

describe('an instrument that is about to be listened to', () => {
  const shown = instrumentOf('ukulele-tenor-high-g', 'Wren');
  const retuned = { ...shown, instrument: { ...shown.instrument, tuningId: 'lantern' } };
  const other = instrumentOf('ukulele-tenor-low-g', 'Pip');

  test('is in the tuning of the retune that has just ended, whatever the page was told before', async () => {
    const now = await freshOverview(hostWith([other, retuned]), shown);
    expect(now.instrument.tuningId).toBe('lantern');
  });

  test('stays as it was where the library no longer has it', async () => {
    expect(await freshOverview(hostWith([]), shown)).toBe(shown);
  });
});
