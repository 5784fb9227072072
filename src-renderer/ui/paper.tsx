import type { ReactNode } from 'react';
import styles from './paper.module.css';
import './print.css';

/** A page for paper: A4 or Letter, black on white; what stands around it is not printed. */
export const Paper = ({ label, children }: { readonly label: string; readonly children: ReactNode }) => (
  <article className={`paper ${styles['paper']}`} aria-label={label}>
    {children}
  </article>
);
