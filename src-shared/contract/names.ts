// The names of the contract and nothing else: the preload imports only this file.

/** Everything that can be asked of the host. */
export const requestNames = [
  'library.status',
  'library.restoreBackup',
  'library.export',
  'library.previewImport',
  'library.import',
  'library.undoImport',
  'overview.read',
  'instruments.save',
  'instruments.remove',
  'instruments.restore',
  'instruments.stringSets',
  'tunings.list',
  'tunings.save',
  'tunings.remove',
  'tunings.restore',
  'songs.list',
  'log.read',
  'log.beginRetune',
  'log.finishRetune',
  'log.append',
  'log.changeString',
  'log.remarks',
  'log.summary',
  'log.csv',
  'verdicts.read',
  'settings.read',
  'settings.save',
  'demo.load',
  'demo.remove',
  'window.raise',
] as const;

/** Everything that the host says unasked. */
export const pushNames = ['changed'] as const;

export type RequestName = (typeof requestNames)[number];
export type PushName = (typeof pushNames)[number];

/** The one channel that requests travel on, and the one for pushes. */
export const channels = { ask: 'stillstring:ask', push: 'stillstring:push' } as const;

/** The one global that the preload gives to the page, and what it is: requests and pushes by their fixed names, plain data only. */
export const bridgeName = 'stillstring';

export type Bridge = {
  ask(name: RequestName, input: unknown): Promise<unknown>;
  on(name: PushName, listener: (push: unknown) => void): () => void;
};
