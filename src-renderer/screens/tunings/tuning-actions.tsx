import { useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { useSaveInstrument, useSaveTuning } from '../../stores/changes.ts';
import { hearStrum } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { Switch } from '../../ui/switch.tsx';
import { WordMenu } from '../../ui/word-menu.tsx';
import { CarryPage } from './carry-page.tsx';
import type { SheetKind } from './sheet-page.tsx';
import type { TuningRow } from './tuning-rows.ts';

type Props = {
  readonly row: TuningRow;
  readonly overview: Overview;
  readonly others: readonly Overview[];
  readonly settings: Settings;
  readonly onPlan: () => void;
  readonly onEdit: () => void;
  readonly onStartFrom: () => void;
  readonly onSheet: (kind: SheetKind) => void;
  readonly onRemove: () => void;
};

/** What can be done with the tuning that is open. */
export function TuningActions({
  row: { tuning, here },
  overview,
  others,
  settings,
  onPlan,
  onEdit,
  onStartFrom,
  onSheet,
  onRemove,
}: Props) {
  const { save, error } = useSaveTuning();
  const instrument = useSaveInstrument();
  const [isCarrying, setCarrying] = useState(false);
  const hear = () => {
    if (here !== null) hearStrum(here.to.hertz.flat());
  };
  const sayItIsHere = () =>
    instrument.save(
      { instrument: { ...overview.instrument, tuningId: tuning.id }, stringSet: overview.stringSet },
      overview,
      `${overview.instrument.name} is in ${tuning.name}`,
    );
  useKeys({ Enter: onPlan, h: hear });
  const sheets = [
    { words: 'Tuning sheet', onAction: () => onSheet('tuning') },
    { words: 'By-ear sheet', onAction: () => onSheet('by-ear') },
  ];
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
      {others.length === 0 ? null : <Button onPress={() => setCarrying(true)}>Carry to …</Button>}
      {isCarrying ? <CarryPage tuning={tuning} others={others} settings={settings} onClose={() => setCarrying(false)} /> : null}
      <WordMenu
        words="More"
        label={`More to do with ${tuning.name}`}
        items={[
          { words: 'Change it', onAction: onEdit },
          { words: 'A new one from it', onAction: onStartFrom },
          ...(here === null || here.isHere ? [] : [{ words: `${overview.instrument.name} is in it already`, onAction: sayItIsHere }]),
          ...(here === null ? [] : sheets),
          { words: 'Remove it', onAction: onRemove },
        ]}
      />
      <Switch words="Favourite" isOn={tuning.favourite} onChange={(favourite) => save({ ...tuning, favourite }, tuning)} />
      {[error, instrument.error].map((fault) =>
        fault === null ? null : (
          <p key={fault.message} role="alert">
            {fault.message}
          </p>
        ),
      )}
    </>
  );
}
