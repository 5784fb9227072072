import type { IpcMain, WebContents, WebFrameMain } from 'electron';
import { channels, failureCodes, type Reply } from '#shared/contract/index.ts';
import type { Service } from '../service/index.ts';
import { isOwnAddress } from './own-address.ts';

const refusal: Reply = { ok: false, failure: { code: 'not-allowed', sentence: failureCodes['not-allowed'] } };

const isOwnMainFrame = (frame: WebFrameMain | null): boolean => frame !== null && frame.parent === null && isOwnAddress(frame.url);

/** The one gate between the page and the services: answers the main frame of our own window, and passes pushes on to it. */
export function answerPage(
  ipc: Pick<IpcMain, 'handle'>,
  contents: Pick<WebContents, 'id' | 'send' | 'isDestroyed'>,
  service: Promise<Service>,
): void {
  ipc.handle(channels.ask, async ({ sender, senderFrame }, name: unknown, input: unknown) => {
    if (sender.id !== contents.id || !isOwnMainFrame(senderFrame)) return refusal;
    return (await service).answer(name, input);
  });
  void service.then(
    (opened) =>
      opened.onChanged((push) => {
        if (!contents.isDestroyed()) contents.send(channels.push, 'changed', push);
      }),
    // Why the library could not be opened is told by the one who opened it.
    () => undefined,
  );
}
