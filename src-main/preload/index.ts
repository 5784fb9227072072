// Preload: gives the page one global with the contract's requests and pushes. Knows the contract's names, and nothing else of it.

import { contextBridge, ipcRenderer, type IpcRendererEvent } from 'electron';
import { type Bridge, bridgeName, channels, pushNames, requestNames } from '#shared/contract/names.ts';

const bridge: Bridge = {
  ask(name, input) {
    if (!requestNames.includes(name)) return Promise.reject(new TypeError(`no such request: ${name}`));
    return ipcRenderer.invoke(channels.ask, name, input);
  },
  on(name, listener) {
    if (!pushNames.includes(name)) throw new TypeError(`no such push: ${name}`);
    const heard = (_event: IpcRendererEvent, pushed: unknown, data: unknown): void => {
      if (pushed === name) listener(data);
    };
    ipcRenderer.on(channels.push, heard);
    return () => void ipcRenderer.off(channels.push, heard);
  },
};

contextBridge.exposeInMainWorld(bridgeName, bridge);
