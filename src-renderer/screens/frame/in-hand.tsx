import { useStore } from 'zustand';
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { useChooseInstrument, useChosenInstrument } from '../../stores/chosen.ts';
import { useNow } from '../../stores/clock.ts';
import { useLibrary } from '../../stores/library.ts';
import { retuning } from '../../stores/retuning.ts';
import { listed, type StringVerdict, useStanding } from '../../stores/settling.ts';
import { stateOf } from '../../stores/strings.ts';
import { when } from '../../ui/time.ts';
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
  const { tuning } = stateOf(overview, tunings, settings);
  return (
    <div className={styles['line']}>
      <MenuTrigger>
        <Button className={styles['instrument'] ?? ''} aria-label={`${instrument.name}, ${instrument.kind}: take another instrument`}>
          <strong>{instrument.name}</strong> <span className="quiet">{instrument.kind}</span>
        </Button>
        <Popover className={styles['menu'] ?? ''} offset={4}>
          <Menu onAction={(id) => choose(String(id))}>
            {(all ?? []).map(({ instrument: other }) => (
              <MenuItem key={other.id} id={other.id} textValue={other.name} className={styles['item'] ?? ''}>
                <strong>{other.name}</strong> <span className="quiet">{other.kind}</span>
              </MenuItem>
            ))}
          </Menu>
        </Popover>
      </MenuTrigger>
      <p className={styles['state']}>
        {goingTo === null ? (
          <>
            <span className="quiet">in</span> {tuning.name}
            {lastRetune?.finishedAt === null || lastRetune === null ? null : (
              <span className={`quiet ${styles['since']}`}> since {when(lastRetune.finishedAt, now)}</span>
            )}
            {verdicts === undefined ? null : `, ${holdingWords(verdicts)}`}
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

/** `3 of 4 hold`, or that nothing has been heard since the strings were last touched. */
function holdingWords(verdicts: readonly StringVerdict[]): string {
  const count = (verdict: StringVerdict['assessment']['verdict']) =>
    verdicts.filter(({ assessment }) => assessment.verdict === verdict).length;
  return count('unheard') === verdicts.length ? 'not heard since' : `${count('holding')} of ${verdicts.length} hold`;
}
