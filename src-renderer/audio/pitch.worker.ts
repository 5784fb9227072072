// Only wiring: hops in from the worklet's port, events and levels out to the page. What happens to a hop is in hop-reader.ts.
import type { HopReader } from './hop-reader.ts';
import { createHopReader } from './hop-reader.ts';
import type { Hop, WorkerControl, WorkerReport } from './messages.ts';

let reader: HopReader | null = null;

// A worker's postMessage has no target origin.
// oxlint-disable-next-line unicorn/require-post-message-target-origin
const report = (message: WorkerReport) => globalThis.postMessage(message);

const attach = ({ hops, ...options }: Extract<WorkerControl, { kind: 'attach' }>) => {
  const attached = createHopReader(options);
  reader = attached;
  hops.addEventListener('message', ({ data }: MessageEvent<Hop>) => {
    const { events, level } = attached.push(data);
    hops.postMessage(data.samples, [data.samples.buffer]);
    if (events.length > 0) report({ kind: 'pitch', events });
    if (level) report({ kind: 'level', level });
  });
  hops.start();
};

globalThis.addEventListener('message', ({ data }: MessageEvent<WorkerControl>) => {
  switch (data.kind) {
    case 'attach':
      return attach(data);
    case 'clock':
      return reader?.setClock(data.startsAtSeconds);
    case 'expect':
      return reader?.expect(data.hint);
    case 'reset':
      return reader?.reset();
    case 'gate':
      return reader?.gate(data.untilSample);
    case 'strum':
      return report({ kind: 'strum', id: data.id, readings: reader?.readStrum(data.coursesHertz, data.lastSeconds) ?? null });
  }
});
