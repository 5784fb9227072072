import { useEffect, useState } from 'react';
import { type SoundInput, watchInputs } from '../audio/index.ts';

/** The sound inputs that are plugged in, as they come and go. Their labels are null until a microphone was allowed once. */
export function useInputs(): readonly SoundInput[] {
  const [inputs, setInputs] = useState<readonly SoundInput[]>([]);
  useEffect(() => watchInputs(setInputs), []);
  return inputs;
}
