import { useInputs } from '../../stores/inputs.ts';
import { useLibrary } from '../../stores/library.ts';
import { Choice } from '../../ui/choice.tsx';
import { inputOptions, labelOf, valueOf } from './inputs.ts';
import styles from './settings.module.css';

type Props = { readonly chosen: string | null; readonly onChange: (label: string | null) => void };

/** Which input is listened to; remembered by its label, because its number changes when it is plugged in again. */
export function MicrophoneSetting({ chosen, onChange }: Props) {
  const { data: status } = useLibrary('library.status', {});
  const inputs = useInputs();
  const isDemo = typeof status?.demoMicrophone === 'string';
  const hasNames = inputs.some(({ label }) => label !== null);
  return (
    <div className={styles['device']}>
      <Choice
        label="Microphone or pickup"
        options={inputOptions(
          inputs.map(({ label }) => label),
          chosen,
        )}
        value={valueOf(chosen)}
        onChange={(value) => onChange(labelOf(value))}
      />
      <p className="small quiet">
        {isDemo
          ? 'In the demo the strings on the screen are heard in the microphone’s place.'
          : inputs.length === 0
            ? 'No input is plugged in.'
            : hasNames
              ? 'Used where an instrument has no input of its own.'
              : 'The names of the inputs appear once you have let Stillstring listen.'}
      </p>
    </div>
  );
}
