import type { ImportPreview, Input } from '#shared/contract/index.ts';
import { fileName, greatestLibraryFile, libraryFormat } from '#shared/exchange/index.ts';
import type { Instrument } from '#shared/instruments/index.ts';
import { useHost } from './host.tsx';
import { useChange } from './library.ts';
import { noteDone } from './undo.ts';

/** A text to save as a file. */
export type TextFile = { readonly name: string; readonly mediaType: string; readonly parts: readonly string[] };

/** A library file that was looked at, and what taking it in would do. */
export type LookedAt = { readonly name: string; readonly text: string; readonly preview: ImportPreview };

/** Files out of the library and into it. Each rejects with a sentence for the player. */
export function useFiles() {
  const host = useHost();
  return {
    /** The library as a file, with or without its log. */
    async library(log: boolean): Promise<TextFile> {
      const { text } = await host.ask('library.export', { log });
      const day = new Date().toISOString().slice(0, 10);
      return { name: fileName(`stillstring ${day}`, libraryFormat.ending), mediaType: libraryFormat.mediaType, parts: [text] };
    },
    /** All readings of an instrument, as CSV. */
    async readings({ id, name }: Instrument): Promise<TextFile> {
      const parts: string[] = [];
      for (let after: number | null = 0; after !== null;) {
        const page: { readonly text: string; readonly next: number | null } = await host.ask('log.csv', { instrumentId: id, after });
        parts.push(page.text);
        after = page.next;
      }
      return { name: fileName(`${name} readings`, 'csv'), mediaType: 'text/csv', parts };
    },
    /** Looks at a library file; nothing is changed. */
    async look(file: File): Promise<LookedAt> {
      // No character takes more than four bytes; what is longer cannot be a library file and is not even read.
      const text = file.size > greatestLibraryFile * 4 ? null : await file.text();
      if (text === null || text.length > greatestLibraryFile) throw new Error('This file is too large for a library file.');
      return { name: file.name, text, preview: await host.ask('library.previewImport', { text }) };
    },
  };
}

/** Takes a library file in as decided, so that it can be taken back as a whole. */
export function useImport() {
  const host = useHost();
  const take = useChange('library.import');
  return {
    error: take.error,
    isPending: take.isPending,
    take: ({ name, text }: LookedAt, decisions: Input<'library.import'>['decisions'], onTaken: () => void): void =>
      take.mutate(
        { text, decisions },
        {
          onSuccess: (receipt) => {
            noteDone(`Took in ${name}`, () => host.ask('library.undoImport', receipt));
            onTaken();
          },
        },
      ),
  };
}
