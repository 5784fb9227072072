import { useState } from 'react';
import type { MergeChoice } from '#shared/exchange/index.ts';
import { type LookedAt, useImport } from '../../stores/files.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { useTop } from '../../ui/top.ts';
import { count } from '../../ui/words.ts';
import { askingRows, choiceOptions, decisionsOf, importWords, partWord, rowKey } from './import-rows.ts';
import styles from './import-page.module.css';

type Props = { readonly file: LookedAt; readonly onLeave: () => void };

/** So many rows are drawn at a time. */
const atOnce = 100;

/** A library file before it is taken in: row by row what becomes of it. Nothing has been changed yet. */
export function ImportPage({ file, onLeave }: Props) {
  const take = useImport();
  const page = useTop<HTMLElement>();
  const [chosen, setChosen] = useState<ReadonlyMap<string, MergeChoice>>(new Map());
  const [shown, setShown] = useState(atOnce);
  const rows = askingRows(file.preview);
  const hasLog = file.preview.readings + file.preview.retunes > 0;
  const isIdle = rows.length === 0 && !hasLog;
  return (
    <section ref={page} className={styles['page']}>
      <h1>Take in {file.name}</h1>
      <p className={`lead quiet ${styles['words']}`}>{importWords(file.preview)} Nothing has been changed yet.</p>
      <ul className={styles['list']} aria-label="Rows of the file" hidden={rows.length === 0}>
        {rows.slice(0, shown).map((row) => (
          <li key={rowKey(row)} className={styles['row']}>
            <p className={styles['name']}>
              <strong>{row.name}</strong> <span className="small quiet">{partWord(row.part)}</span>
            </p>
            <p className="quiet">{row.present === null ? 'new' : `differs from ${row.present.name} here`}</p>
            <Choice
              label={`What becomes of ${row.name}`}
              hideLabel
              options={choiceOptions(row)}
              value={chosen.get(rowKey(row)) ?? row.choices[0] ?? null}
              onChange={(value) => {
                const choice = row.choices.find((one) => one === value);
                if (choice !== undefined) setChosen((before) => new Map(before).set(rowKey(row), choice));
              }}
            />
          </li>
        ))}
      </ul>
      {rows.length <= shown ? null : (
        <Button look="plain" onPress={() => setShown(shown + atOnce)}>
          Show more of the other {count(rows.length - shown, 'row')}
        </Button>
      )}
      {take.error === null ? null : <p role="alert">{take.error.message}</p>}
      <div className={styles['buttons']}>
        {isIdle ? null : (
          <Button look="solid" autoFocus isDisabled={take.isPending} onPress={() => take.take(file, decisionsOf(rows, chosen), onLeave)}>
            {take.isPending ? 'Taking it in …' : 'Take it in'}
          </Button>
        )}
        <Button look={isIdle ? 'solid' : 'plain'} autoFocus={isIdle} onPress={onLeave}>
          {isIdle ? 'Back to the tunings' : 'Not now'}
        </Button>
      </div>
    </section>
  );
}
