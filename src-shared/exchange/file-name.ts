/**
 * A name for a file from what a player wrote: letters, figures and hyphens of at most 60, nothing that a file system takes for a path.
 * `fileName('Wren: 4/4 …', 'csv')` → `wren-4-4.csv`; a name with nothing left is called `stillstring`.
 */
export function fileName(words: string, ending: string): string {
  const plain = words
    .replaceAll('♭', ' flat')
    .replaceAll('♯', ' sharp')
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .slice(0, 60)
    .replaceAll(/^-+|-+$/gu, '');
  return `${plain === '' ? 'stillstring' : plain}.${ending}`;
}
