import type { ReactNode } from 'react';
import { type Settings, settingsSchema } from '#shared/contract/index.ts';
import { writtenPitchIn } from '#shared/music/index.ts';
import { useChange, useLibrary } from '../../stores/library.ts';
import { Switch } from '../../ui/switch.tsx';
import { TwoWay } from '../../ui/two-way.tsx';
import { Cautions, Keys } from './help.tsx';
import { LibrarySetting } from './library-setting.tsx';
import { MicrophoneSetting } from './microphone-setting.tsx';
import { NumberSetting } from './number-setting.tsx';
import { ReferenceSetting } from './reference-setting.tsx';
import styles from './settings.module.css';

/** What is wrong with a number for a setting, in the words of its schema. */
const problemOf =
  (field: 'referenceHertz' | 'toleranceCents') =>
  (value: number | null): string | null => {
    const read = settingsSchema.shape[field].safeParse(value ?? Number.NaN);
    if (read.success) return null;
    return value === null ? 'Write a number.' : (read.error.issues[0]?.message ?? 'This number cannot be used.');
  };

/** Settings and help. */
export function SettingsScreen() {
  const { data: settings } = useLibrary('settings.read', {});
  const save = useChange('settings.save');
  if (settings === undefined) return null;
  const set = (change: Partial<Settings>) => save.mutate({ ...settings, ...change });
  return (
    <div className={styles['page']}>
      <h1>Settings, help</h1>
      {save.error === null ? null : <p role="alert">{save.error.message}</p>}
      <Row title="Pitch">
        <div className={styles['number']}>
          <NumberSetting
            label="Reference pitch A4, Hz"
            hint="400 to 480"
            value={settings.referenceHertz}
            problemOf={problemOf('referenceHertz')}
            onChange={(referenceHertz) => set({ referenceHertz })}
          />
        </div>
        <ReferenceSetting settings={settings} onTake={(referenceHertz) => set({ referenceHertz })} />
        <div className={styles['number']}>
          <NumberSetting
            label="Tolerance, cents"
            hint="0.5 to 10"
            value={settings.toleranceCents}
            problemOf={problemOf('toleranceCents')}
            onChange={(toleranceCents) => set({ toleranceCents })}
          />
        </div>
        <p className="small quiet">
          A string within the tolerance of its pitch is where it should be. A new reference holds for every tuning at once.
        </p>
      </Row>
      <Row title="Sound">
        <MicrophoneSetting chosen={settings.microphoneLabel} onChange={(microphoneLabel) => set({ microphoneLabel })} />
        <Switch words="A knock when a course has landed" isOn={settings.soundCues} onChange={(soundCues) => set({ soundCues })} />
      </Row>
      <Row title="Note names">
        <TwoWay
          label="How notes are named"
          options={[
            { value: 'english', words: 'C D E F G A B' },
            { value: 'german', words: 'C D E F G A H' },
            { value: 'fixed-do', words: 'Do Re Mi Fa Sol La Si' },
          ]}
          value={settings.noteLanguage}
          onChange={(noteLanguage) => set({ noteLanguage })}
        />
        <p className="small quiet">
          They are shown, typed and printed like this: {writtenPitchIn('Bb3', settings.noteLanguage)} for the B flat below middle C.
        </p>
      </Row>
      <Row title="Look">
        <TwoWay
          label="Light or dark"
          options={[
            { value: 'system', words: 'as the system' },
            { value: 'dark', words: 'dark' },
            { value: 'light', words: 'light' },
          ]}
          value={settings.theme}
          onChange={(theme) => set({ theme })}
        />
      </Row>
      <Row title="Library">
        <LibrarySetting />
      </Row>
      <Row title="Keys">
        <Keys />
      </Row>
      <Row title="Strings under tension">
        <Cautions />
      </Row>
    </div>
  );
}

const Row = ({ title, children }: { readonly title: string; readonly children: ReactNode }) => (
  <section className={styles['row']}>
    <h2>{title}</h2>
    <div>{children}</div>
  </section>
);
