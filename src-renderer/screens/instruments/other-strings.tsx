import type { Overview } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { useSaveInstrument } from '../../stores/changes.ts';
import { useNow } from '../../stores/clock.ts';
import { useLibrary } from '../../stores/library.ts';
import { Button } from '../../ui/button.tsx';
import { when } from '../../ui/time.ts';
import { courseText } from '../../ui/words.ts';
import styles from './instruments.module.css';

/** The strings that were on an instrument before, each with its history, and the way to put them on again. */
export function OtherStrings({ overview }: { readonly overview: Overview }) {
  const { instrument, stringSet: fitted } = overview;
  const { data: sets } = useLibrary('instruments.stringSets', { id: instrument.id });
  const save = useSaveInstrument();
  const now = useNow();
  const others = (sets ?? []).filter(({ stringSet }) => stringSet.id !== fitted.id);
  if (others.length === 0) return null;
  return (
    <>
      <dt>Strings before</dt>
      <dd>
        {others.map(({ stringSet, lastHeardAt }) => (
          <p key={stringSet.id} className={styles['other']}>
            <span>
              {stringSet.name}, {homePitches(stringSet).map(courseText).join(' ')},{' '}
              {lastHeardAt === null ? 'never heard' : `last heard ${when(lastHeardAt, now)}`}
            </span>
            <Button
              look="plain"
              isDisabled={save.isPending}
              onPress={() =>
                save.save(
                  { instrument: { ...instrument, stringSetId: stringSet.id }, stringSet },
                  overview,
                  `Put ${stringSet.name} on ${instrument.name}`,
                )
              }
            >
              Put them on again
            </Button>
          </p>
        ))}
        {save.error === null ? null : <p role="alert">{save.error.message}</p>}
      </dd>
    </>
  );
}
