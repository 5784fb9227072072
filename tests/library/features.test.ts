import { describe, expect, test } from 'vitest';
import {
  codeOf,
  evening,
  instrument,
  openService,
  reading,
  saveWren,
  stringSet,
  temporaryFolder,
  tuning,
  valueOf,
} from '../support/host.ts';

describe('an instrument', () => {
  test('taken away is gone from sight and comes back whole', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'instruments.remove', { id: instrument.id });
    expect(await valueOf(service, 'overview.read')).toEqual([]);
    await valueOf(service, 'instruments.restore', { id: instrument.id });
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument, stringSet }]);
    expect(await codeOf(service, 'instruments.remove', { id: 'nobody' })).toBe('not-found');
  });

  test('is not saved with strings that are not its own, or in a tuning that is not there', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    const other = { ...instrument, id: 'finch' };
    expect(await codeOf(service, 'instruments.save', { instrument: other, stringSet })).toBe('bad-input');
    expect(await codeOf(service, 'instruments.save', { instrument: other, stringSet: { ...stringSet, instrumentId: 'finch' } })).toBe(
      'bad-input',
    );
    expect(await codeOf(service, 'instruments.save', { instrument: { ...instrument, tuningId: 'lost' }, stringSet })).toBe('not-found');
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument, stringSet }]);
  });

  test('whose strings have a history keeps their number', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    const threeCourses = { ...stringSet, courses: stringSet.courses.slice(1) };
    await valueOf(service, 'instruments.save', { instrument, stringSet: threeCourses });
    await valueOf(service, 'instruments.save', { instrument, stringSet });
    await valueOf(service, 'log.append', { turns: [], readings: [{ ...reading, retuneId: null }] });
    expect(await codeOf(service, 'instruments.save', { instrument, stringSet: threeCourses })).toBe('in-use');
    expect(await codeOf(service, 'instruments.save', { instrument, stringSet: { ...stringSet, name: 'Renamed' } })).toBeNull();
  });
});

describe('a tuning', () => {
  test('taken away comes back whole', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'tunings.remove', { id: tuning.id });
    expect(await valueOf(service, 'tunings.list')).toEqual([]);
    await valueOf(service, 'tunings.restore', { id: tuning.id });
    expect(await valueOf(service, 'tunings.list')).toEqual([tuning]);
    expect(await codeOf(service, 'tunings.remove', { id: 'lost' })).toBe('not-found');
  });

  test('that an instrument stands in is not taken away, and the sentence says which', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'instruments.save', { instrument: { ...instrument, tuningId: tuning.id }, stringSet });
    expect(await service.answer('tunings.remove', { id: tuning.id })).toEqual({
      ok: false,
      failure: { code: 'in-use', sentence: '“Wren” is in this tuning.' },
    });
  });
});

describe('the settings', () => {
  test('start at A4 = 440 Hz and ±3 cents, and keep what the player sets over a restart', async () => {
    const folder = await temporaryFolder();
    const first = await openService(folder);
    expect(await valueOf(first, 'settings.read')).toMatchObject({ referenceHertz: 440, toleranceCents: 3 });
    const settings = {
      referenceHertz: 442,
      toleranceCents: 1.5,
      theme: 'dark',
      soundCues: false,
      microphoneLabel: 'Pickup',
      noteLanguage: 'german',
      speaks: true,
    };
    await valueOf(first, 'settings.save', settings);
    await first.close();
    const second = await openService(folder);
    expect(await valueOf(second, 'settings.read')).toEqual(settings);
  });
});

describe('every page', () => {
  test('is told which part changed, until it wants to hear no more', async () => {
    const service = await openService(await temporaryFolder());
    const heard: unknown[] = [];
    const off = service.onChanged((push) => heard.push(push));
    await valueOf(service, 'tunings.save', tuning);
    await codeOf(service, 'tunings.remove', { id: 'lost' });
    off();
    await valueOf(service, 'tunings.remove', { id: tuning.id });
    expect(heard).toEqual([{ parts: ['tunings'] }]);
  });
});

describe('the status', () => {
  test('counts the backups and names the data folder', async () => {
    const folder = await temporaryFolder();
    const service = await openService(folder, { clock: () => evening });
    await valueOf(service, 'tunings.save', tuning);
    await service.close();
    const again = await openService(folder);
    // The backup at the start is made beside the first answers; closing waits for it.
    await again.close();
    const third = await openService(folder);
    expect(await valueOf(third, 'library.status')).toEqual({
      host: 'desk',
      version: '0.0.0',
      dataFolder: folder,
      backups: 1,
      demo: false,
      demoMicrophone: null,
      notice: null,
    });
  });
});
