/** What the choice calls the input that the system has chosen. */
export const systemInput = 'system';

/** The inputs to choose from, each by its label: the system's choice first; the remembered one is among them even while it is unplugged. */
export function inputOptions(
  labels: readonly (string | null)[],
  remembered: string | null,
): readonly { readonly value: string; readonly words: string }[] {
  const present = [...new Set(labels.filter((label) => label !== null && !label.startsWith('Default')))];
  const missing = remembered !== null && !present.includes(remembered) ? [remembered] : [];
  return [
    { value: systemInput, words: 'The system’s choice' },
    ...present.map((label) => ({ value: `input ${label}`, words: label ?? '' })),
    ...missing.map((label) => ({ value: `input ${label}`, words: `${label} (not plugged in)` })),
  ];
}

/** The label that a choice stands for; null is the system's choice. */
export const labelOf = (value: string): string | null => (value === systemInput ? null : value.replace(/^input /u, ''));

/** The value of the choice for a remembered label. */
export const valueOf = (label: string | null): string => (label === null ? systemInput : `input ${label}`);
