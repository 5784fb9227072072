// Contract: what the renderer may ask of the host. Written once; both transports, the client and the preload are derived from it.
// Knows: names, input and output schemas, pushes, failures. Must not know: how a request travels or who answers it.
// Add here: a request as a name in names.ts and a row in requests.ts; the compiler then asks for its handler.

export { dispatch, type Handlers, type Reply } from './dispatch.ts';
export { failureCodes, HostFailure, type Failure, type FailureCode } from './failures.ts';
export { bridgeName, channels, pushNames, requestNames, type Bridge, type PushName, type RequestName } from './names.ts';
export {
  libraryParts,
  pushes,
  requests,
  settingsSchema,
  type FittedSet,
  type Input,
  type Output,
  type Overview,
  type Push,
  type Settings,
} from './requests.ts';
export type { ImportPreview, ImportReceipt } from './exchange.ts';
export type { LogAddition, SetVerdicts, StringState } from './log.ts';
export type { Host } from './host.ts';
