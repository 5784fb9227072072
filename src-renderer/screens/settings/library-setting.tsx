import { useChange, useLibrary } from '../../stores/library.ts';
import { forgetDone } from '../../stores/undo.ts';
import { Button } from '../../ui/button.tsx';
import { count } from '../../ui/words.ts';
import styles from './settings.module.css';

/** Where the library is, what protects it, and the demo library beside it. */
export function LibrarySetting() {
  const { data: status } = useLibrary('library.status', {});
  const load = useChange('demo.load');
  const remove = useChange('demo.remove');
  if (status === undefined) return null;
  const fault = load.error ?? remove.error;
  const isBusy = load.isPending || remove.isPending;
  return (
    <>
      <p className={`${styles['plain']} ${styles['path']}`}>The data file is in {status.dataFolder}.</p>
      <p className="quiet">
        {status.backups === 0 ? 'There is no backup yet.' : `Beside it lie backups of ${count(status.backups, 'day')}.`} Everything stays on
        this computer.
      </p>
      <div className={styles['buttons']}>
        {status.demo ? (
          <Button isDisabled={isBusy} onPress={() => remove.mutate({}, { onSuccess: forgetDone })}>
            Remove the demo library
          </Button>
        ) : (
          <Button isDisabled={isBusy} onPress={() => load.mutate({})}>
            {load.isPending ? 'Loading the demo library …' : 'Load the demo library'}
          </Button>
        )}
        <p className="small quiet">
          {status.demo ? 'What is your own stays.' : 'Six invented instruments with a year of readings, beside your own.'}
        </p>
      </div>
      {fault === null ? null : <p role="alert">{fault.message}</p>}
      <p className="small faint">Stillstring {status.version}</p>
    </>
  );
}
