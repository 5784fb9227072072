import { Switch as Pressable } from 'react-aria-components';
import styles from './switch.module.css';

type Props = { readonly words: string; readonly isOn: boolean; readonly onChange: (isOn: boolean) => void };

/** On or off: a knob at the far or the near end of a string. */
export const Switch = ({ words, isOn, onChange }: Props) => (
  <Pressable className={styles['switch'] ?? ''} isSelected={isOn} onChange={onChange}>
    <svg className={styles['mark']} viewBox="0 0 40 20" aria-hidden="true">
      <line className={styles['string']} x1={isOn ? 0 : 19} x2={isOn ? 24 : 40} y1={10} y2={10} />
      <circle className={styles['knob']} cx={isOn ? 31 : 10} cy={10} r={isOn ? 8 : 9} />
    </svg>
    {words}
  </Pressable>
);
