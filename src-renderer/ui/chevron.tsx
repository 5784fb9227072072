/** The one sign that is drawn: it folds and it opens a choice. */
export const Chevron = ({ turned = false }: { readonly turned?: boolean }) => (
  <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true" transform={turned ? 'rotate(-90)' : ''}>
    <path d="M1.5 3.5 6 8l4.5-4.5" fill="none" stroke="currentColor" strokeWidth="1.75" />
  </svg>
);
