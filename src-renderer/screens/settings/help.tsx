import styles from './settings.module.css';

const keys = [
  ['Space', 'start listening; pause and go on'],
  ['Page Down, Page Up', 'one step on, one step back; many foot pedals send these'],
  ['Right, Left, Z', 'while retuning: skip the course, undo the last step'],
  ['A', 'while retuning: the course asked for, or any course'],
  ['R', 'while retuning: this string is a new one'],
  ['S, P', 'after a strum: once more; in place of one: pluck the courses'],
  ['F', 'while retuning: the far view, readable from two metres'],
  ['Esc', 'leave the far view; end the retune'],
  ['H', 'hear the pitch, or the tuning, that is wanted'],
  ['T', 'touch up: the tuning it is in, any course, from anywhere'],
  ['S', 'check the strings, on the Settling page'],
  ['W', 'on the plan: pluck every course to find out what the instrument is in'],
  ['Ctrl K, or Cmd K', 'find an instrument, a tuning, a song or a page'],
  ['Arrows', 'move through a list; Enter takes what is open'],
  ['/', 'search the tunings'],
  ['Ctrl Z, or Cmd Z', 'take back what was changed, removed or taken in last'],
] as const;

/** The keys that work anywhere. */
export const Keys = () => (
  <dl className={styles['keys']}>
    {keys.map(([key, does]) => (
      <div key={key} style={{ display: 'contents' }}>
        <dt>{key}</dt>
        <dd className="quiet">{does}</dd>
      </div>
    ))}
  </dl>
);

/** The usual cautions. The figures of this app are estimates; who made the string knows better. */
export const Cautions = () => (
  <div className={`quiet ${styles['cautions']}`}>
    <p>A string under tension can break and whip. Keep your face away from it, and turn slowly.</p>
    <p>
      Pull and margins are worked out from what you say a string is; most of them are estimates, and strings of one kind differ. Where the
      maker of the string or of the instrument gives a rating, that goes before any figure here.
    </p>
    <p>Stop where a string creaks, a bridge lifts or a neck bends, and ask a qualified luthier.</p>
  </div>
);
