import { useChange, useLibrary } from '../../stores/library.ts';
import { forgetDone } from '../../stores/undo.ts';
import { Button } from '../../ui/button.tsx';
import styles from './instruments.module.css';

/** While the demo library is loaded: a quiet line that says so, and takes it out again. */
export function DemoLine() {
  const { data: status } = useLibrary('library.status', {});
  const remove = useChange('demo.remove');
  if (status?.demo !== true) return null;
  return (
    <div className={`small quiet ${styles['demo']}`}>
      <span>The demo library is loaded.</span>
      <Button look="plain" isDisabled={remove.isPending} onPress={() => remove.mutate({}, { onSuccess: forgetDone })}>
        Remove the demo
      </Button>
      {remove.error === null ? null : <span role="alert">{remove.error.message}</span>}
    </div>
  );
}
