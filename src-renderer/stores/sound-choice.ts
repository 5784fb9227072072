import { createStore } from 'zustand/vanilla';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import type { SoundChoice } from './session.ts';

/** What the player chose to be heard through since the app was opened; `remembered` = what the instrument was last heard through. */
type Chosen =
  | { readonly kind: 'remembered' }
  | { readonly kind: 'microphone' }
  | { readonly kind: 'recording'; readonly label: string; readonly bytes: Uint8Array };

export const chosenSound = createStore<Chosen>(() => ({ kind: 'remembered' }));

/** Where an instrument is heard: a recording that was chosen, the demo's recording, its own input, or the one set for all. */
export function soundFor({ instrument }: Overview, settings: Settings, status: Output<'library.status'> | undefined): SoundChoice {
  const chosen = chosenSound.getState();
  if (chosen.kind === 'recording') return { label: chosen.label, bytes: chosen.bytes };
  const demo = status?.demoMicrophone ?? null;
  if (demo !== null && chosen.kind === 'remembered') return { recording: demo };
  return { inputLabel: instrument.inputLabel ?? settings.microphoneLabel, channel: instrument.inputChannel };
}
