import { createStore } from 'zustand/vanilla';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import type { SoundChoice } from './session.ts';
import { isPlayedOnScreen, virtualInstrument } from './virtual-strings.ts';

/** What the player chose to be heard through since the app was opened; `remembered` = what the instrument was last heard through. */
type Chosen =
  | { readonly kind: 'remembered' }
  | { readonly kind: 'microphone' }
  | { readonly kind: 'screen' }
  | { readonly kind: 'demo recording' }
  | { readonly kind: 'recording'; readonly label: string; readonly bytes: Uint8Array };

export const chosenSound = createStore<Chosen>(() => ({ kind: 'remembered' }));

/** Whether the instrument in hand is the one on the screen. In the demo it is, until something else is chosen. */
export function isOnScreen(overview: Overview, chosen: Chosen, status: Output<'library.status'> | undefined): boolean {
  if (!isPlayedOnScreen(overview, status)) return false;
  return chosen.kind === 'screen' || (chosen.kind === 'remembered' && typeof status?.demoMicrophone === 'string');
}

/** Where an instrument is heard: on the screen, in a recording, through its own input, or through the one set for all. */
export function soundFor(overview: Overview, settings: Settings, status: Output<'library.status'> | undefined): SoundChoice {
  const chosen = chosenSound.getState();
  if (chosen.kind === 'recording') return { label: chosen.label, bytes: chosen.bytes };
  if (chosen.kind === 'demo recording' && typeof status?.demoMicrophone === 'string') return { recording: status.demoMicrophone };
  if (isOnScreen(overview, chosen, status)) return { source: virtualInstrument(overview, settings).source };
  return { inputLabel: overview.instrument.inputLabel ?? settings.microphoneLabel, channel: overview.instrument.inputChannel };
}
