// The pitch worker as it is, in a thread of Node: gives it the messages and the scope that a browser gives its workers, and tells what its heap holds.
import { parentPort } from 'node:worker_threads';
import { heldMegabytes } from './heap.ts';

const scope = new EventTarget();
Object.assign(globalThis, {
  addEventListener: scope.addEventListener.bind(scope),
  // A port's postMessage has no target origin.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  postMessage: (message: unknown) => parentPort?.postMessage(message),
});
await import('../../../src-renderer/audio/pitch.worker.ts');
parentPort?.on('message', (data: unknown) => {
  if (data === 'heap') parentPort?.postMessage({ kind: 'heap', megabytes: heldMegabytes() }, []);
  else scope.dispatchEvent(Object.assign(new Event('message'), { data }));
});
parentPort?.postMessage({ kind: 'ready' }, []);
