import { useStore } from 'zustand';
import { useConnection } from '../../stores/connection.ts';
import { useChange, useLibrary } from '../../stores/library.ts';
import { outbox } from '../../stores/outbox.ts';
import { Button } from '../../ui/button.tsx';
import { count } from '../../ui/words.ts';
import styles from './notice.module.css';

/** What the host has to say about the library, with what can be done about it. */
export function Notice() {
  const { data: status, error } = useLibrary('library.status', {});
  const connection = useConnection();
  const restore = useChange('library.restoreBackup');
  if (connection === 'lost')
    return (
      <Line sentence="The part that keeps the library is not answering; what you do meanwhile is kept and written down as soon as it does." />
    );
  if (connection === 'refused')
    return (
      <Line sentence="This page is no longer let in, because Stillstring was started anew. Open the address that the new start has printed." />
    );
  if (error !== null) return <Line sentence={error.message} />;
  if (status?.notice === undefined || status.notice === null) return <Refused />;
  return (
    <Line sentence={status.notice.sentence}>
      {['library-damaged', 'library-empty'].includes(status.notice.code) && status.backups > 0 ? (
        <Button onPress={() => restore.mutate({})}>Bring back the last backup</Button>
      ) : null}
    </Line>
  );
}

/** Rows that the log will never take, with the reason for the last of them. */
function Refused() {
  const refused = useStore(outbox, (state) => state.refused);
  const last = refused.at(-1);
  if (last === undefined) return null;
  return <Line sentence={`${count(refused.length, 'row')} could not be written into the log: ${last.reason}`} />;
}

const Line = ({ sentence, children }: { readonly sentence: string; readonly children?: React.ReactNode }) => (
  <div className={styles['notice']} role="alert">
    <p>{sentence}</p>
    {children}
  </div>
);
