import { useNavigate } from '@tanstack/react-router';
import { Button } from './button.tsx';
import styles from './nothing.module.css';

type Props = { readonly title: string; readonly sentence: string; readonly to: string; readonly words: string };

/** What a screen shows while there is nothing to show: what it is for, and the way to fill it. */
export function Nothing({ title, sentence, to, words }: Props) {
  const navigate = useNavigate();
  return (
    <section className={styles['nothing']}>
      <h1>{title}</h1>
      <p className="lead quiet">{sentence}</p>
      <Button look="solid" onPress={() => void navigate({ to, search: true })}>
        {words}
      </Button>
    </section>
  );
}
