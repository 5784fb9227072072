import { useEffect, useRef, useState } from 'react';
import { Button as Pressable } from 'react-aria-components';
import { useStore } from 'zustand';
import { courseNumber } from '#shared/instruments/index.ts';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { session } from '../../stores/session.ts';
import { chosenSound, isOnScreen } from '../../stores/sound-choice.ts';
import { virtualInstrument } from '../../stores/virtual-strings.ts';
import { WordChoice } from '../../ui/word-choice.tsx';
import { type HandOn, handOn } from './hand.ts';
import styles from './screen-strings.module.css';

/** Strings on the screen, for looking around without an instrument: pluck them, and turn their pegs, while Stillstring listens. */
export function ScreenStrings() {
  const overview = useChosenInstrument();
  const chosen = useStore(chosenSound);
  const isListening = useStore(session, ({ listening }) => listening !== null);
  const { data: settings } = useLibrary('settings.read', {});
  const { data: status } = useLibrary('library.status', {});
  if (!isListening || overview === null || settings === undefined || !isOnScreen(overview, chosen, status)) return null;
  return <Strings key={overview.stringSet.id} overview={overview} settings={settings} />;
}

function Strings({ overview, settings }: { readonly overview: Overview; readonly settings: Settings }) {
  const { courses } = overview.stringSet;
  const [course, setCourse] = useState(0);
  const [string, setString] = useState(0);
  const [hand] = useState(() => handOn(virtualInstrument(overview, settings).hand));
  useEffect(() => hand.letGo, [hand]);
  const number = courseNumber(course, courses.length);
  const pluck = (one: number) => {
    setCourse(one);
    setString(0);
    hand.pluck(one);
  };
  usePegKeys(hand, course, string);
  return (
    <section className={styles['strings']} aria-label="Strings on the screen">
      <span className={`small quiet ${styles['words']}`}>Pluck</span>
      {courses.map((_, index) => {
        const own = courseNumber(index, courses.length);
        return (
          <Pressable
            key={own}
            className={`${styles['course']} ${index === course ? styles['chosen'] : ''}`}
            aria-label={`Pluck course ${own}`}
            onPressStart={() => pluck(index)}
          >
            {own}
          </Pressable>
        );
      })}
      <Pressable className={styles['course'] ?? ''} onPressStart={hand.strum}>
        all
      </Pressable>
      <span className={`small quiet ${styles['words']}`}>Peg of {number}</span>
      {(courses[course]?.strings.length ?? 1) > 1 ? (
        <WordChoice
          label={`String of course ${number}`}
          options={courses[course]?.strings.map((_one, index) => ({ value: String(index), words: nth[index] ?? '' })) ?? []}
          value={String(string)}
          onChange={(value) => setString(Number(value))}
        />
      ) : null}
      {turns.map(({ words, key, direction }) => (
        <Pressable
          key={words}
          className={styles['peg'] ?? ''}
          onPressStart={() => hand.turn(course, string, direction)}
          onPressEnd={hand.letGo}
        >
          {words} <kbd>{key}</kbd>
        </Pressable>
      ))}
    </section>
  );
}

const nth = ['first', 'second', 'third'] as const;
const turns = [
  { words: 'Loosen', key: '↓', direction: -1 },
  { words: 'Tighten', key: '↑', direction: 1 },
] as const;

/** The arrows turn the peg for as long as they are held. */
function usePegKeys(hand: HandOn, course: number, string: number): void {
  const place = useRef({ course, string });
  useEffect(() => {
    place.current = { course, string };
  });
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const turn = turns.find(({ direction }) => event.key === (direction < 0 ? 'ArrowDown' : 'ArrowUp'));
      const isElsewhere =
        event.target instanceof Element && event.target.closest('input, textarea, [role="dialog"], [role="menu"]') !== null;
      if (turn === undefined || isElsewhere) return;
      event.preventDefault();
      if (!event.repeat) hand.turn(place.current.course, place.current.string, turn.direction);
    };
    const release = (event: KeyboardEvent): void => {
      if (event.key === 'ArrowDown' || event.key === 'ArrowUp') hand.letGo();
    };
    window.addEventListener('keydown', press);
    window.addEventListener('keyup', release);
    return () => {
      window.removeEventListener('keydown', press);
      window.removeEventListener('keyup', release);
    };
  }, [hand]);
}
