import type { ReactNode } from 'react';
import { useChange, useLibrary } from '../../stores/library.ts';
import { Button } from '../../ui/button.tsx';
import { useSize } from '../../ui/size.ts';
import styles from './first-run.module.css';

/** What is shown before there is any instrument. */
export function FirstRun({ onSetUp, children }: { readonly onSetUp: () => void; readonly children: ReactNode }) {
  const { data: status } = useLibrary('library.status', {});
  const load = useChange('demo.load');
  return (
    <section className={styles['page']}>
      <h1>Which instrument is in your hands?</h1>
      <p className={`lead quiet ${styles['lead']}`}>
        Tell Stillstring its size and what it is strung with. It can then say how far each string may go, and how long it takes to come to
        rest.
      </p>
      <EmptyBoard />
      <div className={styles['buttons']}>
        <Button look="solid" shortcut="Enter" autoFocus onPress={onSetUp}>
          Set up an instrument
        </Button>
        <Button isDisabled={load.isPending} onPress={() => load.mutate({})}>
          {load.isPending ? 'Loading the demo library …' : 'Look around with the demo library'}
        </Button>
      </div>
      <p className="quiet">The demo has six instruments and a year of invented readings. One press removes it again.</p>
      {load.error === null ? null : <p role="alert">{load.error.message}</p>}
      {children}
      <p className={`small faint ${styles['where']}`}>
        Everything stays on this computer{status === undefined ? '.' : `, in ${status.dataFolder}.`}
      </p>
    </section>
  );
}

const frets = 12;
const strings = [2, 3.5, 3, 2];

/** A board that waits: twelve frets, four strings at rest. Fret n lies at 1 − 2^(−n/12) of the scale length; the drawing ends past the twelfth. */
function EmptyBoard() {
  const [board, { width, height }] = useSize<SVGSVGElement>();
  const shown = 1 - 2 ** (-12.8 / 12);
  return (
    <svg ref={board} className={styles['board']} aria-hidden="true">
      {Array.from({ length: frets }, (_, fret) => {
        const x = ((1 - 2 ** (-(fret + 1) / 12)) / shown) * width;
        return <line key={fret} className={styles['fret']} x1={x} x2={x} y1={0} y2={height} />;
      })}
      {strings.map((thickness, index) => {
        const y = ((index + 0.5) / strings.length) * height;
        return <line key={index} className={styles['string']} strokeWidth={thickness} x1={0} x2={width} y1={y} y2={y} />;
      })}
    </svg>
  );
}
