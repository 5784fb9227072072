import { useState } from 'react';
import { libraryFormat } from '#shared/exchange/index.ts';
import type { Instrument } from '#shared/instruments/index.ts';
import { type LookedAt, type TextFile, useFiles } from '../../stores/files.ts';
import { chooseFile, saveFile } from '../../ui/file.ts';
import { WordMenu } from '../../ui/word-menu.tsx';

type Props = { readonly instrument: Instrument; readonly onLook: (file: LookedAt) => void };

/** Files out of the library and into it. */
export function FilesMenu({ instrument, onLook }: Props) {
  const files = useFiles();
  const [problem, setProblem] = useState<string | null>(null);
  const attempt = (work: Promise<void>): void => {
    setProblem(null);
    void work.catch((fault: unknown) => setProblem(fault instanceof Error ? fault.message : String(fault)));
  };
  const save = (file: Promise<TextFile>): void => attempt(file.then(saveFile));
  const look = async (): Promise<void> => {
    const file = await chooseFile(`.${libraryFormat.ending.split('.').at(-1) ?? ''}`);
    if (file !== null) onLook(await files.look(file));
  };
  return (
    <>
      <WordMenu
        words="Files"
        items={[
          { words: 'Save the library', onAction: () => save(files.library(false)) },
          { words: 'Save the library with its log', onAction: () => save(files.library(true)) },
          { words: 'Take in a library file …', onAction: () => attempt(look()) },
          { words: `Save the readings of ${instrument.name} as CSV`, onAction: () => save(files.readings(instrument)) },
        ]}
      />
      {problem === null ? null : <p role="alert">{problem}</p>}
    </>
  );
}
