import { describe, expect, test, vi } from 'vitest';
import { writeLibraryFile } from '#shared/exchange/index.ts';
import { channels, failureCodes, type Input, pushes, pushNames, type RequestName, requestNames, requests } from '#shared/contract/index.ts';
import { makeHandlers } from '../../src-main/service/index.ts';
import { openLibrary } from '../../src-main/library/index.ts';
import { noRows } from '../unit/exchange/rows.ts';
import { evening, instrument, openService, reading, remarks, retune, stringSet, temporaryFolder, tuning, turn } from '../support/host.ts';

/** An entry that is right, for every request. */
const rightInputs: { readonly [Name in RequestName]: Input<Name> } = {
  'library.status': {},
  'library.restoreBackup': {},
  'library.export': { log: true },
  'library.previewImport': { text: writeLibraryFile(noRows) },
  'library.import': { text: writeLibraryFile({ ...noRows, tunings: [tuning] }), decisions: [] },
  'library.undoImport': {
    added: { instruments: [], tunings: [], songs: [] },
    before: { instruments: [], stringSets: [], tunings: [], songs: [] },
  },
  'overview.read': {},
  'instruments.save': { instrument, stringSet },
  'instruments.remove': { id: 'wren' },
  'instruments.restore': { id: 'wren' },
  'instruments.stringSets': { id: 'wren' },
  'tunings.list': {},
  'tunings.save': tuning,
  'tunings.remove': { id: 'three-down' },
  'tunings.restore': { id: 'three-down' },
  'songs.list': {},
  'log.read': { stringSetId: 'wren-strings', retunes: 3 },
  'log.beginRetune': retune,
  'log.finishRetune': { id: 'retune-1', finishedAt: evening },
  'log.append': { turns: [turn], readings: [reading] },
  'log.changeString': remarks.stringChanges[0]!,
  'log.remarks': { id: 'wren' },
  'log.summary': { stringSetId: 'wren-strings', from: 0, until: 86_400_000, bucketMilliseconds: 86_400_000 },
  'log.csv': { instrumentId: 'wren', after: 0 },
  'verdicts.read': { stringSetIds: ['wren-strings'] },
  'settings.read': {},
  'settings.save': {
    referenceHertz: 440,
    toleranceCents: 3,
    theme: 'system',
    soundCues: true,
    microphoneLabel: null,
    noteLanguage: 'english',
    speaks: false,
  },
  'demo.load': {},
  'demo.remove': {},
  'window.raise': {},
};

/** Entries that are wrong for every request, whatever it takes: no entry, no object, a member too many. */
const wrongForAll: readonly unknown[] = [undefined, null, 'words', 7, []];

/** For each request with an entry of its own, one that is wrong in a single place, and where the refusal must point. */
const wrongInOnePlace: readonly (readonly [RequestName, unknown, RegExp])[] = [
  [
    'instruments.save',
    { instrument: { ...instrument, scaleLengthMillimetres: 40 }, stringSet },
    /at least 150 mm.*instrument\.scaleLengthMillimetres/,
  ],
  ['library.export', { log: 'yes' }, /log/],
  ['library.previewImport', { text: ' '.repeat(40 * 1024 * 1024) }, /too large.*text/],
  ['library.import', { text: '{}', decisions: [{ part: 'tunings', id: 'x', choice: 'burn' }] }, /decisions\.0\.choice/],
  ['library.undoImport', { added: { instruments: [7], tunings: [], songs: [] }, before: {} }, /added\.instruments\.0/],
  ['instruments.remove', { id: '' }, /id/],
  ['instruments.stringSets', { id: '' }, /id/],
  ['log.csv', { instrumentId: 'wren', after: -1 }, /after/],
  ['instruments.restore', { id: 'x'.repeat(65) }, /id/],
  ['tunings.save', { ...tuning, name: '  ' }, /Give the tuning a name.*name/],
  ['tunings.remove', {}, /id/],
  ['tunings.restore', { id: 4 }, /id/],
  ['log.read', { stringSetId: 'wren-strings', retunes: 0 }, /retunes/],
  ['log.beginRetune', { ...retune, wantedHertz: [[0]] }, /wantedHertz\.0\.0/],
  ['log.finishRetune', { id: 'retune-1', finishedAt: 1.5 }, /finishedAt/],
  ['log.append', { turns: [], readings: [{ ...reading, deviationCents: Number.NaN }] }, /readings\.0\.deviationCents/],
  ['log.append', { notes: [{ ...remarks.notes[0], words: ' ' }] }, /few words.*notes\.0/],
  ['log.changeString', { ...remarks.stringChanges[0], material: 'string' }, /material/],
  ['log.remarks', { id: '' }, /id/],
  ['log.summary', { ...rightInputs['log.summary'], bucketMilliseconds: 60_000 }, /at most 1000 stretches.*until/],
  ['verdicts.read', { stringSetIds: [''] }, /stringSetIds\.0/],
  ['settings.save', { ...rightInputs['settings.save'], referenceHertz: 300 }, /between 400 and 480 Hz.*referenceHertz/],
];

describe('the contract', () => {
  test('names each thing once', () => {
    expect(new Set(requestNames).size).toBe(requestNames.length);
    expect(Object.keys(requests).toSorted()).toEqual(requestNames.toSorted());
    expect(Object.keys(pushes).toSorted()).toEqual(pushNames.toSorted());
  });

  test('has a handler for every request and no other', async () => {
    const library = await openLibrary(await temporaryFolder(), () => evening);
    const handlers = makeHandlers({
      library,
      demoFile: '',
      clock: () => evening,
      changed: () => undefined,
      raise: () => undefined,
      facts: { host: 'desk', version: '0', demoMicrophone: null },
    });
    expect(Object.keys(handlers).toSorted()).toEqual(requestNames.toSorted());
    await library.close();
  });

  test('states every failure as a sentence', () => {
    for (const sentence of Object.values(failureCodes)) expect(sentence).toMatch(/^[A-Z].*\.$/);
  });

  test('takes only what it names: every entry is closed to other members', () => {
    for (const name of requestNames) expect(requests[name].input.safeParse({ ...rightInputs[name], more: 1 }).success, name).toBe(false);
  });
});

describe.each(requestNames)('%s', (name) => {
  test('answers a right entry, or says with a known code why not', async () => {
    const service = await openService(await temporaryFolder());
    const reply = await service.answer(name, rightInputs[name]);
    if (reply.ok) expect(requests[name].output.safeParse(reply.value).success).toBe(true);
    else expect(Object.keys(failureCodes).filter((code) => code !== 'internal' && code !== 'bad-input')).toContain(reply.failure.code);
  });

  test('refuses a wrong entry with a code and a sentence, and nothing is changed', async () => {
    const service = await openService(await temporaryFolder());
    const changed = vi.fn();
    service.onChanged(changed);
    for (const wrong of [...wrongForAll, { ...rightInputs[name], more: 1 }])
      expect(await service.answer(name, wrong)).toEqual({
        ok: false,
        failure: { code: 'bad-input', sentence: expect.stringMatching(/\S+.*\(.+\)$/) },
      });
    expect(changed).not.toHaveBeenCalled();
  });
});

describe('a refusal', () => {
  test.each(wrongInOnePlace)('of %s points to the place', async (name, wrong, place) => {
    const service = await openService(await temporaryFolder());
    expect(await service.answer(name, wrong)).toEqual({
      ok: false,
      failure: { code: 'bad-input', sentence: expect.stringMatching(place) },
    });
  });

  test('has a case for every request that takes an entry', () => {
    const taking = requestNames.filter((name) => Object.keys(rightInputs[name]).length > 0);
    expect([...new Set(wrongInOnePlace.map(([name]) => name))].toSorted()).toEqual(taking.toSorted());
  });

  test.each(['no.such', 'toString', '__proto__', 'constructor', '', null, 7, {}])(
    'of the name %j says that there is no such request',
    async (name) => {
      const service = await openService(await temporaryFolder());
      expect(await service.answer(name, {})).toMatchObject({ ok: false, failure: { code: 'unknown-request' } });
    },
  );
});

describe('the bridge', () => {
  test('carries every request on the one channel and every push back, as data only', async () => {
    const invoke = vi.fn(() => Promise.resolve('reply'));
    const listeners: ((...args: unknown[]) => void)[] = [];
    const exposed = new Map<string, unknown>();
    vi.doMock('electron', () => ({
      contextBridge: { exposeInMainWorld: (name: string, api: unknown) => exposed.set(name, api) },
      ipcRenderer: {
        invoke,
        on: (channel: string, listener: (...args: unknown[]) => void) => channel === channels.push && listeners.push(listener),
        off: (_channel: string, listener: (...args: unknown[]) => void) => listeners.splice(listeners.indexOf(listener), 1),
      },
    }));
    await import('../../src-main/preload/index.ts');
    vi.doUnmock('electron');
    expect([...exposed.keys()]).toEqual(['stillstring']);
    const bridge = exposed.get('stillstring') as {
      ask(name: string, input: unknown): Promise<unknown>;
      on(name: string, heard: (data: unknown) => void): () => void;
    };
    expect(Object.keys(bridge)).toEqual(['ask', 'on']);

    for (const name of requestNames) {
      await bridge.ask(name, rightInputs[name]);
      expect(invoke).toHaveBeenLastCalledWith(channels.ask, name, rightInputs[name]);
    }
    await expect(bridge.ask('no.such', {})).rejects.toThrow('no such request');
    expect(invoke).toHaveBeenCalledTimes(requestNames.length);

    const heard = vi.fn();
    const off = bridge.on('changed', heard);
    for (const listener of listeners) listener({ sender: 'an event that pages must not see' }, 'changed', { parts: ['log'] });
    expect(heard.mock.calls).toEqual([[{ parts: ['log'] }]]);
    off();
    expect(listeners).toEqual([]);
    expect(() => bridge.on('no-such', heard)).toThrow('no such push');
  });

  test('pushes what their schema says', () => {
    expect(pushes.changed.safeParse({ parts: ['instruments'] }).success).toBe(true);
    expect(pushes.changed.safeParse({ parts: ['elsewhere'] }).success).toBe(false);
  });
});
