import { useChange } from '../../stores/library.ts';
import { hearStrum } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { Switch } from '../../ui/switch.tsx';
import type { TuningRow } from './tuning-rows.ts';

type Props = {
  readonly row: TuningRow;
  readonly onPlan: () => void;
  readonly onEdit: () => void;
  readonly onRemove: () => void;
};

/** What can be done with the tuning that is open. */
export function TuningActions({ row: { tuning, here }, onPlan, onEdit, onRemove }: Props) {
  const save = useChange('tunings.save');
  const hear = () => {
    if (here !== null) hearStrum(here.to.hertz.flat());
  };
  useKeys({ Enter: onPlan, h: hear });
  return (
    <>
      {here === null ? null : (
        <>
          <Button look="solid" shortcut="Enter" onPress={onPlan}>
            Plan {tuning.name}
          </Button>
          <Button shortcut="H" onPress={hear}>
            Hear it
          </Button>
        </>
      )}
      <Button onPress={onEdit}>Change it</Button>
      <Switch words="Favourite" isOn={tuning.favourite} onChange={(favourite) => save.mutate({ ...tuning, favourite })} />
      <Button look="plain" onPress={onRemove}>
        Remove it
      </Button>
      {save.error === null ? null : <p role="alert">{save.error.message}</p>}
    </>
  );
}
