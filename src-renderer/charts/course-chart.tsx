import { useEffect, useRef } from 'react';
import { useSize } from '../ui/size.ts';
import type { CoursePicture } from './picture.ts';
import { openPlot, type Plot } from './plot.ts';
import styles from './course-chart.module.css';

/** One course's cents against time, drawn; it fills its place. The words that say the same stand beside it. */
export function CourseChart({ picture }: { readonly picture: CoursePicture }) {
  const [place, size] = useSize<HTMLDivElement>();
  const plot = useRef<Plot | null>(null);
  useEffect(() => {
    if (place.current === null) return undefined;
    const opened = openPlot(place.current);
    plot.current = opened;
    return () => {
      plot.current = null;
      opened.close();
    };
  }, [place]);
  useEffect(() => plot.current?.draw(picture, size), [picture, size]);
  return <div ref={place} className={styles['chart']} aria-hidden="true" />;
}
