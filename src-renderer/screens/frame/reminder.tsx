import { useNavigate } from '@tanstack/react-router';
import { useStore } from 'zustand';
import type { Overview } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { beginCheck } from '../../stores/checking.ts';
import { useHost } from '../../stores/host.tsx';
import { useLibrary } from '../../stores/library.ts';
import { type DueCheck, useDueCheck, useNotification } from '../../stores/reminder.ts';
import { useSnooze } from '../../stores/remarks.ts';
import { session } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { Button } from '../../ui/button.tsx';
import { listed } from '../../ui/words.ts';
import styles from './reminder.module.css';

const none: readonly Overview[] = [];
const laterMilliseconds = 10 * 60_000;

/** One quiet line, wherever the player is, when it is time to listen to a string again; not while Stillstring listens: nothing is to move then. */
export function Reminder() {
  const { data: overviews } = useLibrary('overview.read', {});
  const isListening = useStore(session, ({ listening }) => listening !== null);
  const due = useDueCheck(overviews ?? none);
  return due === null || isListening ? null : <Line due={due} />;
}

function Line({ due: { overview, courses, key } }: { readonly due: DueCheck }) {
  const snooze = useSnooze();
  const check = useCheck(overview);
  const words = reminderWords(overview, courses);
  useNotification(key, words, check);
  return (
    <div className={styles['line']}>
      <output>{words}</output>
      <Button look="plain" onPress={check}>
        Check
      </Button>
      <Button look="plain" onPress={() => snooze(overview.stringSet.id, Date.now() + laterMilliseconds)}>
        Later
      </Button>
    </div>
  );
}

/** `Wren: check courses 3 and 1 now.` */
function reminderWords({ instrument, stringSet }: Overview, courses: readonly number[]): string {
  const numbers = courses.map((course) => courseNumber(course, stringSet.courses.length));
  return `${instrument.name}: check ${numbers.length === 1 ? 'course' : 'courses'} ${listed(numbers)} now.`;
}

/** Goes to Settling and begins to listen there. */
function useCheck(overview: Overview): () => void {
  const host = useHost();
  const navigate = useNavigate();
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: status } = useLibrary('library.status', {});
  return () => {
    if (tunings === undefined || settings === undefined) return;
    void navigate({ to: '/settling', search: { on: overview.instrument.id } });
    void beginCheck({ host, overview, tunings, settings, sound: soundFor(overview, settings, status) });
  };
}
