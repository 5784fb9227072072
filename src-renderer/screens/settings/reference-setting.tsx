import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { midi } from '#shared/units/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { beginReference, endReference, takingReference } from '../../stores/reference.ts';
import { session } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { pitchText } from '../../ui/note-names.ts';
import { figure } from '../../ui/words.ts';
import { referenceWords } from './reference-words.ts';
import styles from './settings.module.css';

type Props = { readonly settings: Settings; readonly onTake: (hertz: number) => void };

/** Notes that a piano, an organ or an oboe gives, A4 first: it is the surest. */
const notes = [
  { name: 'A4', number: 69 },
  { name: 'A3', number: 57 },
  { name: 'C4', number: 60 },
  { name: 'D4', number: 62 },
  { name: 'E4', number: 64 },
  { name: 'G4', number: 67 },
  { name: 'C5', number: 72 },
] as const;

/** Takes the reference pitch from whatever the others tune to. */
export function ReferenceSetting({ settings, onTake }: Props) {
  const overview = useChosenInstrument();
  const { data: status } = useLibrary('library.status', {});
  const [name, setName] = useState('A4');
  const [problem, setProblem] = useState<string | null>(null);
  const heard = useStore(takingReference, ({ now }) => now?.heard ?? null);
  const isTaking = useStore(takingReference, ({ now }) => now !== null);
  const trouble = useStore(session, ({ snapshot }) =>
    snapshot === null || ['open', 'asking'].includes(snapshot.state.kind) ? null : snapshot.state.sentence,
  );
  useEffect(() => endReference, []);
  const begin = (note: string) => {
    setName(note);
    setProblem(null);
    const number = notes.find((one) => one.name === note)?.number ?? 69;
    const sound = overview === null ? { inputLabel: settings.microphoneLabel, channel: 0 } : soundFor(overview, settings, status);
    beginReference(midi(number), sound).catch((fault: unknown) => setProblem(fault instanceof Error ? fault.message : String(fault)));
  };
  if (!isTaking) return <Button onPress={() => begin(name)}>Take it from a piano</Button>;
  const a4 = heard?.kind === 'reference' ? Math.round(heard.a4Hertz * 10) / 10 : null;
  return (
    <div className={styles['reference']}>
      <Choice
        label="The note that is played"
        options={notes.map((note) => ({ value: note.name, words: pitchText(note.name) }))}
        value={name}
        onChange={begin}
      />
      <output className="lead">{problem ?? trouble ?? referenceWords(heard, pitchText(name))}</output>
      <div className={styles['buttons']}>
        {a4 === null ? null : (
          <Button
            look="solid"
            onPress={() => {
              endReference();
              onTake(a4);
            }}
          >
            Use {figure(a4, 1)} Hz
          </Button>
        )}
        <Button onPress={endReference}>
          Leave it at {figure(settings.referenceHertz, Number.isInteger(settings.referenceHertz) ? 0 : 1)} Hz
        </Button>
      </div>
    </div>
  );
}
