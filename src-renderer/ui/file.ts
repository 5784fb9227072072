/** Lets the player save a text as a file: through a link to it in memory, which asks the network for nothing. */
export function saveFile({
  name,
  mediaType,
  parts,
}: {
  readonly name: string;
  readonly mediaType: string;
  readonly parts: readonly string[];
}): void {
  const address = URL.createObjectURL(new Blob([...parts], { type: mediaType }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the file over by the next turn; a minute is plenty where it asks for a place first.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Asks the player for a file; null where none was chosen. `ending` is what its name ends in. */
export const chooseFile = (ending: string): Promise<File | null> =>
  new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = ending;
    input.addEventListener('change', () => resolve(input.files?.[0] ?? null));
    input.addEventListener('cancel', () => resolve(null));
    input.click();
  });
