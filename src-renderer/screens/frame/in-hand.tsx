import { useStore } from 'zustand';
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import type { Overview } from '#shared/contract/index.ts';
import { useChooseInstrument, useChosenInstrument } from '../../stores/chosen.ts';
import { useNow } from '../../stores/clock.ts';
import { useLibrary } from '../../stores/library.ts';
import { retuning } from '../../stores/retuning.ts';
import { listed, type StringVerdict, useEveryVerdict, useStanding } from '../../stores/settling.ts';
import { stateOf } from '../../stores/strings.ts';
import { when } from '../../ui/time.ts';
import { SlipMark } from '../slip-mark.tsx';
import { slippingOf } from '../slipping.ts';
import styles from './in-hand.module.css';

/** Which instrument is in hand, which tuning it is in and how it holds; while retuning, where it is going. */
export function InHand() {
  const overview = useChosenInstrument();
  const { data: all } = useLibrary('overview.read', {});
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const choose = useChooseInstrument();
  const now = useNow();
  const goingTo = useStore(retuning, ({ now }) => (now !== null && now.finishedAt === null ? now.to.name : null));
  const standing = useStanding(overview);
  const verdicts = standing === undefined ? undefined : listed(standing);
  if (overview === null || tunings === undefined || settings === undefined) {
    return <p className={styles['app']}>Stillstring</p>;
  }
  const { instrument, lastRetune } = overview;
  const { name } = stateOf(overview, tunings, settings);
  return (
    <div className={styles['line']}>
      <MenuTrigger>
        <Button className={styles['instrument'] ?? ''} aria-label={`${instrument.name}, ${instrument.kind}: take another instrument`}>
          <strong>{instrument.name}</strong> <span className="quiet">{instrument.kind}</span>
        </Button>
        <Popover className={styles['menu'] ?? ''} offset={4}>
          <InstrumentMenu overviews={all ?? []} toleranceCents={settings.toleranceCents} onChoose={choose} />
        </Popover>
      </MenuTrigger>
      <p className={styles['state']}>
        {goingTo === null ? (
          <>
            <span className="quiet">in</span> {name}
            {lastRetune?.finishedAt === null || lastRetune === null ? null : (
              <span className={`quiet ${styles['since']}`}> since {when(lastRetune.finishedAt, now)}</span>
            )}
            {verdicts === undefined ? null : (
              <>
                , {holdingWords(verdicts, lastRetune !== null)}{' '}
                <SlipMark slipping={slippingOf(verdicts, overview.stringSet.courses.length)} />
              </>
            )}
          </>
        ) : (
          <>
            <span className="quiet">going to</span> {goingTo}
          </>
        )}
        {settings.referenceHertz === 440 ? null : <span className="quiet"> · A4 at {settings.referenceHertz} Hz</span>}
      </p>
    </div>
  );
}

type MenuProps = {
  readonly overviews: readonly Overview[];
  readonly toleranceCents: number;
  readonly onChoose: (id: string) => void;
};

/** The instruments to choose from; how they hold is asked for when the menu is opened. */
function InstrumentMenu({ overviews, toleranceCents, onChoose }: MenuProps) {
  const verdicts = useEveryVerdict(overviews, toleranceCents);
  return (
    <Menu onAction={(id) => onChoose(String(id))}>
      {overviews.map(({ instrument: other, stringSet }) => (
        <MenuItem key={other.id} id={other.id} textValue={other.name} className={styles['item'] ?? ''}>
          <strong>{other.name}</strong> <span className="quiet">{other.kind}</span>
          <SlipMark slipping={slippingOf(verdicts.get(other.id) ?? [], stringSet.courses.length)} />
        </MenuItem>
      ))}
    </Menu>
  );
}

/** `3 of 4 hold`, or that nothing has been heard since the strings were last touched, or ever. */
function holdingWords(verdicts: readonly StringVerdict[], wasRetuned: boolean): string {
  const count = (verdict: StringVerdict['assessment']['verdict']) =>
    verdicts.filter(({ assessment }) => assessment.verdict === verdict).length;
  if (count('unheard') < verdicts.length) return `${count('holding')} of ${verdicts.length} hold`;
  return wasRetuned ? 'not heard since' : 'not heard yet';
}
