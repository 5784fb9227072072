import { describe, expect, test } from 'vitest';
import { dayText, draftOf, readDay, readDraft } from '../../../../src-renderer/screens/instruments/draft.ts';
import { instrumentOf } from '../wren.ts';

const now = new Date(2026, 10, 25, 20, 0).getTime();
const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const fittedAt = new Date(2026, 6, 30, 18, 30).getTime();
const overview = { ...wren, stringSet: { ...wren.stringSet, fittedAt } };
const fresh = { stringSetId: 'new-set', at: now };

describe('the day on which strings were fitted', () => {
  test('is read as it is written, and only where there is such a day', () => {
    expect(readDay('2026-11-25')).toBe(new Date(2026, 10, 25).getTime());
    expect(['2026-02-30', '2026-13-01', 'yesterday', '', '25.11.2026'].map(readDay)).toEqual([null, null, null, null, null]);
    expect(dayText(readDay('2026-3-7')!)).toBe('2026-03-07');
  });

  test('keeps its hour while it is left as it was', () => {
    expect(readDraft(draftOf(overview), overview, fresh)).toMatchObject({ stringSet: { fittedAt } });
  });

  test('may be another one, for new strings too, but not one to come', () => {
    const draft = { ...draftOf(overview), hasNewStrings: true };
    expect(readDraft({ ...draft, fittedOn: '2026-11-25' }, overview, fresh)).toMatchObject({ stringSet: { id: 'new-set', fittedAt: now } });
    expect(readDraft({ ...draft, fittedOn: '2026-11-20' }, overview, fresh)).toMatchObject({
      stringSet: { fittedAt: readDay('2026-11-20') },
    });
    expect(readDraft({ ...draft, fittedOn: '2026-11-26' }, overview, fresh)).toMatchObject({
      problems: { fittedOn: expect.stringContaining('A day that has been') as string },
    });
  });
});
