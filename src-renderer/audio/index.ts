// Audio: sound in (a microphone, or a recording or a virtual instrument in its place) as pitch events, short sounds and spoken sentences out.
// Knows: devices, audio contexts, the worklet and the worker. Must not know: instruments, tunings, stores, React.
// Path: source → capture.worklet (hops of 512 samples) → pitch.worker → events; the main thread only gets events and levels.
// Add here: another source of sound (own file, the SoundSource of source.ts) or another short sound (a Sound of speaker.ts).

export type { InputFacts, SoundSource, SoundState, SoundStateKind } from './source.ts';
export type { InputChoice, SoundInput } from './devices.ts';
export { listInputs, watchInputs } from './devices.ts';
export { createMicrophone } from './microphone.ts';
export { createRecordingSource } from './recording-source.ts';
export type { Hand, VirtualInstrument } from './virtual-instrument.ts';
export { createVirtualInstrument } from './virtual-instrument.ts';
export type { HearingWord } from './hearing.ts';
export type { Level } from './level-meter.ts';
export type { CoursesHertz, StrumReadings } from './messages.ts';
export type { Listening, ListeningSnapshot } from './listening.ts';
export { startListening } from './listening.ts';
export type { Sound, Speaker } from './speaker.ts';
export { createSpeaker } from './speaker.ts';
export { landingCue } from './cue.ts';
export { referenceStrum, referenceTone } from './reference-sound.ts';
export type { SpeechWorld, Voice } from './speech.ts';
export { createVoice } from './speech.ts';
