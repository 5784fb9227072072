import { Button, Menu, MenuItem, MenuSection, MenuTrigger, Popover, Header } from 'react-aria-components';
import { useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useInputs } from '../../stores/inputs.ts';
import { useChange, useLibrary } from '../../stores/library.ts';
import { hearThrough } from '../../stores/retuning.ts';
import { session, type SoundStateKind } from '../../stores/session.ts';
import { chosenSound, soundFor } from '../../stores/sound-choice.ts';
import { isPlayedOnScreen } from '../../stores/virtual-strings.ts';
import styles from './input.module.css';

const hearingWords = { hearing: 'hearing you', quiet: 'quiet', noisy: 'noisy', 'too-quiet': 'too quiet', 'too-loud': 'too loud' } as const;

/** The states in which nothing can be heard, in a word or two; their sentence stands where the player looks. */
const stateWords: Partial<Record<SoundStateKind, string>> = {
  closed: 'not listening',
  asking: 'opening',
  denied: 'no microphone',
  blocked: 'no microphone',
  'no-device': 'no microphone',
  busy: 'microphone busy',
  lost: 'microphone gone',
  asleep: 'asleep',
  muted: 'muted',
  silent: 'no sound at all',
  ended: 'ended',
  failed: 'not working',
};

/** The input: which device, how loud it is, and whether a string is heard. Pressed, it lets another one be chosen. */
export function Input() {
  const label = useStore(session, ({ snapshot }) => snapshot?.input?.label ?? null);
  const state = useStore(session, ({ snapshot }) => snapshot?.state ?? null);
  const hearing = useStore(session, ({ snapshot }) => snapshot?.hearing ?? null);
  const recording = useStore(chosenSound, (chosen) => (chosen.kind === 'recording' ? chosen.label : null));
  const words = state === null ? 'not listening' : (stateWords[state.kind] ?? hearingWords[hearing ?? 'quiet']);
  const shown = label ?? recording;
  return (
    <MenuTrigger>
      <Button
        className={styles['input'] ?? ''}
        aria-label={`Input: ${words}${shown === null ? '' : ` ${plainLabel(shown)}`}. Choose another`}
      >
        <span className={styles['words']}>{words}</span>{' '}
        {shown === null ? null : <span className={`small quiet ${styles['label']}`}>{plainLabel(shown)}</span>}
        <Level />
      </Button>
      <InputMenu />
    </MenuTrigger>
  );
}

/** Device ids in brackets, as some systems add them to a label, help nobody. */
const plainLabel = (label: string): string => label.replace(/ \([0-9a-f]{4}:[0-9a-f]{4}\)$/u, '');

/** The quietest and loudest that the bar shows, in dB of full scale, and its length in px. */
const quietest = -72;
const loudest = 0;
const barLength = 96;
const shortest = 4;

const lengthOf = (levelDecibels: number | null): number => {
  const share = levelDecibels === null ? 0 : (levelDecibels - quietest) / (loudest - quietest);
  return Math.round(Math.min(barLength, Math.max(shortest, share * barLength)));
};

function Level() {
  const isOpen = useStore(session, ({ snapshot }) => snapshot !== null);
  return <span className={styles['bar']}>{isOpen ? <LevelMark /> : null}</span>;
}

/** The level changes many times a second: it is painted straight into the page, React is not asked. */
function LevelMark() {
  const mark = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const paint = (): void => {
      const { snapshot, levelDecibels } = session.getState();
      mark.current?.style.setProperty('width', `${lengthOf(snapshot?.state.kind === 'open' ? levelDecibels : null)}px`);
    };
    paint();
    return session.subscribe(paint);
  }, []);
  return <span ref={mark} className={styles['level']} />;
}

/** Hears a recording that the player brings. */
async function bring(file: File | undefined): Promise<void> {
  if (file === undefined) return;
  const sound = { label: file.name, bytes: new Uint8Array(await file.arrayBuffer()) };
  chosenSound.setState({ kind: 'recording', ...sound }, true);
  await hearThrough(sound);
}

function InputMenu() {
  const inputs = useInputs();
  const overview = useChosenInstrument();
  const save = useChange('instruments.save');
  const { data: status } = useLibrary('library.status', {});
  const { data: settings } = useLibrary('settings.read', {});
  const file = useRef<HTMLInputElement>(null);
  const channels = useStore(session, ({ snapshot }) => snapshot?.input?.channelCount ?? 1);

  const take = (inputLabel: string | null, inputChannel: number) => {
    chosenSound.setState({ kind: 'microphone' }, true);
    void hearThrough({ inputLabel, channel: inputChannel });
    if (overview !== null) save.mutate({ instrument: { ...overview.instrument, inputLabel, inputChannel }, stringSet: overview.stringSet });
  };
  const act = (key: string) => {
    if (key === 'recording') return file.current?.click();
    if (key === 'screen' || key === 'demo recording') {
      chosenSound.setState({ kind: key }, true);
      if (overview !== null && settings !== undefined) void hearThrough(soundFor(overview, settings, status));
      return;
    }
    if (key.startsWith('channel ')) return take(overview?.instrument.inputLabel ?? null, Number(key.slice('channel '.length)));
    const input = inputs.find(({ deviceId }) => `input ${deviceId}` === key);
    return take(input?.label ?? null, 0);
  };
  return (
    <>
      <Popover className={styles['menu'] ?? ''} placement="bottom end" offset={4}>
        <Menu onAction={(key) => act(String(key))} aria-label="Input">
          <MenuSection>
            <Header className={`small faint ${styles['heading']}`}>Heard through</Header>
            {inputs.map(({ deviceId, label }) => (
              <MenuItem key={deviceId} id={`input ${deviceId}`} className={styles['item'] ?? ''}>
                {label === null ? 'the system’s microphone' : plainLabel(label)}
              </MenuItem>
            ))}
            {overview !== null && isPlayedOnScreen(overview, status) ? (
              <MenuItem id="screen" className={styles['item'] ?? ''}>
                {overview.instrument.name} on the screen
              </MenuItem>
            ) : null}
            {typeof status?.demoMicrophone === 'string' ? (
              <MenuItem id="demo recording" className={styles['item'] ?? ''}>
                the demo’s recording
              </MenuItem>
            ) : null}
            <MenuItem id="recording" className={styles['item'] ?? ''}>
              a recording (WAV) …
            </MenuItem>
          </MenuSection>
          {channels > 1 ? (
            <MenuSection>
              <Header className={`small faint ${styles['heading']}`}>Channel</Header>
              {Array.from({ length: channels }, (_, channel) => (
                <MenuItem key={channel} id={`channel ${channel}`} className={styles['item'] ?? ''}>
                  {channel + 1}
                </MenuItem>
              ))}
            </MenuSection>
          ) : null}
        </Menu>
      </Popover>
      <input
        ref={file}
        type="file"
        accept=".wav,audio/wav"
        hidden
        aria-label="A recording"
        onChange={(event) => void bring(event.target.files?.[0])}
      />
    </>
  );
}
