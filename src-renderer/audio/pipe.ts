// The bundler's own kind of import: the address of the compiled worklet.
// oxlint-disable-next-line import/default
import captureUrl from './capture.worklet.ts?worker&url';
import type { CaptureControl, WorkerControl, WorkerReport } from './messages.ts';
import type { OpenSound } from './source.ts';

export type Pipe = {
  readonly tell: (control: Exclude<WorkerControl, { kind: 'attach' }>) => void;
  readonly choose: (channel: number) => void;
  readonly close: () => void;
};

type PipeOptions = Omit<Extract<WorkerControl, { kind: 'attach' }>, 'kind' | 'hops'> & {
  readonly channel: number;
  readonly report: (report: WorkerReport) => void;
  readonly failed: (message: string) => void;
};

/**
 * Leads open sound through the capture worklet straight into a pitch worker of its own. The page is not in the path: the two share a port.
 * Rejects where the worklet can't be loaded; a fault in the worker comes through `failed`.
 */
export const openPipe = async ({ context, node }: OpenSound, { channel, report, failed, ...attach }: PipeOptions): Promise<Pipe> => {
  await context.audioWorklet.addModule(captureUrl);
  const worker = new Worker(new URL('./pitch.worker.ts', import.meta.url), { type: 'module', name: 'pitch' });
  worker.addEventListener('message', ({ data }: MessageEvent<WorkerReport>) => report(data));
  worker.addEventListener('error', ({ message }) => failed(message));
  const capture = new AudioWorkletNode(context, 'capture', { numberOfInputs: 1, numberOfOutputs: 1 });
  const tell = (control: WorkerControl, transfer: Transferable[] = []) => worker.postMessage(control, transfer);
  const control = (message: CaptureControl, transfer: Transferable[] = []) => capture.port.postMessage(message, transfer);

  const { port1, port2 } = new MessageChannel();
  tell({ kind: 'attach', hops: port1, ...attach }, [port1]);
  control({ channel, worker: port2 }, [port2]);
  node.connect(capture);
  // Its output is silence; being connected is what keeps it running.
  capture.connect(context.destination);
  return {
    tell,
    choose: (channel) => control({ channel }),
    close: () => {
      node.disconnect(capture);
      capture.disconnect();
      worker.terminate();
    },
  };
};
