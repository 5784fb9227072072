import { useNavigate, useSearch } from '@tanstack/react-router';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { useNow } from '../../stores/clock.ts';
import { useVerdicts } from '../../stores/settling.ts';
import { stateOf } from '../../stores/strings.ts';
import { Nothing } from '../../ui/nothing.tsx';
import { type Address, keepInstrument } from '../address.ts';
import { rowsOf, wasEverHeard } from './rows.ts';
import { SettlingPage } from './settling-page.tsx';
import { YearPage } from './year/year-page.tsx';
import styles from './settling-page.module.css';

/** What the address calls the year of an instrument. */
const yearOpen = 'year';

/** Settling: how the strings of the instrument in hand have moved since they were turned, and what to expect of them. */
export function SettlingScreen() {
  const overview = useChosenInstrument();
  const navigate = useNavigate();
  const { open } = useSearch({ strict: false });
  const now = useNow() / 1000;
  const { data: overviews } = useLibrary('overview.read', {});
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const judged = useVerdicts(overview, settings?.toleranceCents ?? 3);
  if (overviews === undefined || tunings === undefined || settings === undefined) return null;
  if (overview === null) {
    return (
      <Nothing
        title="Whose strings are settling?"
        sentence="Set up an instrument; once it has been retuned, this page tells how its strings hold and when to touch them up."
        to="/instruments"
        words="Set up an instrument"
      />
    );
  }
  const { name } = overview.instrument;
  // A year of an instrument takes a moment to judge, and the page stands still meanwhile: it says so before.
  if (judged === undefined) {
    return (
      <div className={styles['page']}>
        <h1>{name}</h1>
        <output className="lead quiet">Working out from its log how each string holds …</output>
      </div>
    );
  }
  const { tuning } = stateOf(overview, tunings, settings);
  const rows = rowsOf(overview, tuning, judged.log, judged.verdicts);
  if (!wasEverHeard(rows)) {
    return (
      <Nothing
        title={`${name} has not been heard yet`}
        sentence="Pluck every course once in Retune. From the first reading on, this page tells how each string moves and when it will hold."
        to="/retune"
        words={`Listen to ${name}`}
      />
    );
  }
  const show = (open: string | null) =>
    void navigate({ to: '/settling', search: (before: Address) => ({ ...keepInstrument(before), ...(open === null ? {} : { open }) }) });
  if (open === yearOpen) {
    return (
      <YearPage
        key={overview.instrument.id}
        overview={overview}
        settings={settings}
        log={judged.log}
        now={now * 1000}
        onLeave={() => show(null)}
      />
    );
  }
  return (
    <SettlingPage
      onYear={() => show(yearOpen)}
      overview={overview}
      rows={rows}
      log={judged.log}
      now={now}
      toleranceCents={settings.toleranceCents}
    />
  );
}
