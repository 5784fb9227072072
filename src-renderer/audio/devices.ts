/** A sound input as the system names it. `label` is null until a microphone has been allowed once. */
export type SoundInput = { readonly deviceId: string; readonly label: string | null };
/** An input as remembered: by its label, because its id may change when it is plugged in again. */
export type InputChoice = { readonly deviceId: string; readonly label: string | null };

/** Ids that stand for whatever the system has chosen, not for a device. */
const standIns: readonly string[] = ['default', 'communications'];

/** The sound inputs, the system's choice first; empty where there is none or where the page may not use any. */
export const listInputs = async (devices: MediaDevices | undefined = navigator.mediaDevices): Promise<SoundInput[]> =>
  ((await devices?.enumerateDevices()) ?? [])
    .filter(({ kind, deviceId }) => kind === 'audioinput' && deviceId !== 'communications')
    .map(({ deviceId, label }) => ({ deviceId, label: label || null }));

/** Calls `listener` with the inputs now and whenever one is plugged in or out; returns the unsubscriber. */
export const watchInputs = (
  listener: (inputs: readonly SoundInput[]) => void,
  devices: MediaDevices | undefined = navigator.mediaDevices,
) => {
  let watching = true;
  const tell = async () => {
    const inputs = await listInputs(devices);
    if (watching) listener(inputs);
  };
  const onChange = () => void tell();
  devices?.addEventListener('devicechange', onChange);
  onChange();
  return () => {
    watching = false;
    devices?.removeEventListener('devicechange', onChange);
  };
};

/**
 * The wanted input among those present: by label, else by id; null when it isn't there. A stand-in id alone finds nothing,
 * since it may by now mean another device.
 */
export const findInput = (inputs: readonly SoundInput[], wanted: InputChoice): SoundInput | null =>
  inputs.find((input) => input.label !== null && input.label === wanted.label) ??
  inputs.find((input) => input.deviceId !== '' && input.deviceId === wanted.deviceId && !standIns.includes(input.deviceId)) ??
  null;
