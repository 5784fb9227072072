// The path of sound as it is in the app, in real time: the capture worklet on this thread, fed 128 samples of stereo at a time, and the pitch
// worker in a thread of its own, with a port between them. Counts what went in, what came back and what waited.
import { Worker } from 'node:worker_threads';
import { addNoise, pluckSound } from '#shared/simulation/sound/index.ts';
import type { CaptureControl, WorkerControl, WorkerReport } from '../../../src-renderer/audio/messages.ts';
import { minuteByMinute } from './heap.ts';
import { quantile } from './score.ts';
import { head, row } from './table.ts';

const strings = [391.995, 261.626, 329.628, 440];
const pluckSeconds = 2.5;
const blockSamples = 128;
/** This thread may be late itself, and then gives what is due in pieces, as a sound card would. */
const secondsAtOnce = 0.25;

type Processor = { port: MessagePort; process: (inputs: Float32Array[][]) => boolean };

/** The worklet's class, in a stand-in for the scope of the audio thread. */
const loadWorklet = async (sampleRateHertz: number) => {
  let made: (new () => Processor) | null = null;
  const { port1, port2 } = new MessageChannel();
  Object.assign(globalThis, {
    sampleRate: sampleRateHertz,
    currentFrame: 0,
    AudioWorkletProcessor: class {
      readonly port = port1;
    },
    registerProcessor: (_: string, processor: new () => Processor) => (made = processor),
  });
  await import(`../../../src-renderer/audio/capture.worklet.ts?rate=${sampleRateHertz}`);
  if (made === null) throw new Error('the worklet has registered no processor');
  return { processor: new (made as new () => Processor)(), control: port2 };
};

const pluckedStrings = (sampleRateHertz: number) =>
  strings.map((hertz, index) => {
    const pluck = pluckSound({ hertz, sampleRateHertz, seconds: pluckSeconds, seed: 300 + index, pluckedAtSeconds: 0.05, glideCents: 2 });
    return addNoise(pluck.samples, { ratioDecibels: 35, sampleRateHertz, seed: 300 + index });
  });

const captureAt = async (minutes: number, sampleRateHertz: number) => {
  const sounds = pluckedStrings(sampleRateHertz);
  const { processor, control } = await loadWorklet(sampleRateHertz);
  const worker = new Worker(new URL('./capture-worker.ts', import.meta.url));
  const between = new MessageChannel();
  const toWorker = new MessageChannel();
  const counts = { sent: 0, back: 0, frames: 0, dropped: 0 };
  const waiting: number[] = [];
  const held: number[] = [];

  // Between the two, every hop and every buffer that comes back is counted.
  between.port2.addEventListener('message', ({ data }) => {
    counts.sent++;
    waiting.push(counts.sent - counts.back);
    toWorker.port1.postMessage(data, [data.samples.buffer]);
  });
  toWorker.port1.addEventListener('message', ({ data }) => {
    counts.back++;
    between.port2.postMessage(data, [data.buffer]);
  });
  between.port2.start();
  toWorker.port1.start();
  const { promise: ready, resolve: isReady } = Promise.withResolvers<void>();
  worker.on('message', (report: WorkerReport | { kind: 'ready' } | { kind: 'heap'; megabytes: number }) => {
    if (report.kind === 'ready') isReady();
    if (report.kind === 'heap') held.push(report.megabytes);
    if (report.kind === 'pitch') counts.frames += report.events.filter(({ kind }) => kind === 'frame').length;
    if (report.kind === 'level') counts.dropped = report.level.droppedHops;
  });
  const attach: WorkerControl = { kind: 'attach', hops: toWorker.port2, startsAtSeconds: 0, hint: { hertz: strings, asked: null } };
  worker.postMessage(attach, [toWorker.port2 as never]);
  const message: CaptureControl = { channel: 1, worker: between.port1 };
  control.postMessage(message, [between.port1]);
  // Both sides have their ports before the first block.
  await ready;
  await new Promise((done) => setTimeout(done, 1_000));

  const blocks = Math.floor((minutes * 60 * sampleRateHertz) / blockSamples);
  const silent = new Float32Array(blockSamples);
  const perPluck = Math.floor((pluckSeconds * sampleRateHertz) / blockSamples);
  const started = performance.now();
  const blocksASecond = sampleRateHertz / blockSamples;
  let latestSeconds = 0;
  for (let block = 0, minute = 1; block < blocks;) {
    const soundedSeconds = (performance.now() - started) / 1000;
    latestSeconds = Math.max(latestSeconds, soundedSeconds - block / blocksASecond);
    const due = Math.min(blocks, block + secondsAtOnce * blocksASecond, soundedSeconds * blocksASecond);
    for (; block < due; block++) {
      const sound = sounds[Math.floor(block / perPluck) % sounds.length] ?? silent;
      const from = (block % perPluck) * blockSamples;
      Object.assign(globalThis, { currentFrame: block * blockSamples });
      processor.process([[silent, sound.subarray(from, from + blockSamples)]]);
    }
    if (block >= minute * 60 * blocksASecond) {
      worker.postMessage('heap', []);
      minute++;
    }
    await new Promise((done) => setTimeout(done, 3));
  }
  // What still waits is read to its end.
  for (let turn = 0; turn < 50 && counts.back < counts.sent; turn++) await new Promise((done) => setTimeout(done, 100));
  await worker.terminate();
  for (const port of [control, between.port2, toWorker.port1, processor.port]) port.close();
  return { ...counts, hops: Math.floor((blocks * blockSamples) / 512), waiting, held, latestSeconds };
};

/** Prints whether the path keeps up in real time, stereo, the second channel chosen: so many minutes at 48 kHz, a tenth of that at other rates. */
export const captureTable = async (minutes: number) => {
  console.log('\nstereo through capture worklet and pitch worker, in real time');
  head([
    'samples a second',
    'minutes',
    'hops played',
    'sent',
    'read',
    'dropped, by the worker',
    'hops waiting: median / 99.9 % / most',
    'most that the sound itself came late, s',
    'frames a second',
    "MB held by the worker's heap after each minute",
  ]);
  for (const rate of [48_000, 44_100, 88_200, 96_000]) {
    const lasting = rate === 48_000 ? minutes : minutes / 10;
    const { hops, sent, back, dropped, waiting, frames, held, latestSeconds } = await captureAt(lasting, rate);
    const queue = [0.5, 0.999, 1].map((share) => quantile(waiting, share)).join(' / ');
    row([
      String(rate),
      String(lasting),
      String(hops),
      String(sent),
      String(back),
      String(dropped),
      queue,
      latestSeconds.toFixed(1),
      (frames / lasting / 60).toFixed(0),
      minuteByMinute(held),
    ]);
  }
};
