import { useChange, useLibrary } from '../../stores/library.ts';
import { Button } from '../../ui/button.tsx';
import styles from './notice.module.css';

/** What the host has to say about the library, with what can be done about it. */
export function Notice() {
  const { data: status, error } = useLibrary('library.status', {});
  const restore = useChange('library.restoreBackup');
  if (error !== null) return <Line sentence={error.message} />;
  if (status?.notice === undefined || status.notice === null) return null;
  return (
    <Line sentence={status.notice.sentence}>
      {status.notice.code === 'library-damaged' && status.backups > 0 ? (
        <Button onPress={() => restore.mutate({})}>Bring back the last backup</Button>
      ) : null}
    </Line>
  );
}

const Line = ({ sentence, children }: { readonly sentence: string; readonly children?: React.ReactNode }) => (
  <div className={styles['notice']} role="alert">
    <p>{sentence}</p>
    {children}
  </div>
);
