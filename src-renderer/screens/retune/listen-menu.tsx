import { Button, Header, Menu, MenuItem, MenuSection, MenuTrigger, Popover } from 'react-aria-components';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { aloud } from '../../stores/aloud.ts';
import { useHost } from '../../stores/host.tsx';
import { useChange } from '../../stores/library.ts';
import { retuning, strumAtEnd } from '../../stores/retuning.ts';
import { Chevron } from '../../ui/chevron.tsx';
import type { Steps } from './use-led.ts';
import styles from './listen-menu.module.css';

/** The seldom steps of a player who is being led, each with its key, and what is to be heard. */
export function ListenMenu({ steps, settings }: { readonly steps: Steps; readonly settings: Settings }) {
  const save = useChange('settings.save');
  const host = useHost();
  const strums = useStore(retuning, ({ now }) => now?.coach.setup.strumCheck ?? false);
  const { speaks } = settings;
  const canSpeak = useStore(aloud, (state) => state.canSpeak);
  const items = [
    { words: 'Skip this course', key: 'Page Down', act: steps.skip },
    { words: 'Undo the last step', key: 'Page Up, Z', act: steps.back },
    { words: 'This string is new', key: 'R', act: steps.restring },
    { words: 'End here', key: 'Esc', act: steps.end },
  ];
  const chosen = [...(strums ? ['strums'] : []), ...(settings.soundCues ? ['knocks'] : []), ...(speaks && canSpeak ? ['speaks'] : [])];
  const choose = (keys: ReadonlySet<string>) => {
    if (keys.has('strums') !== strums) strumAtEnd(host, keys.has('strums'));
    if (keys.has('knocks') !== settings.soundCues) save.mutate({ ...settings, soundCues: keys.has('knocks') });
    if (canSpeak && keys.has('speaks') !== speaks) save.mutate({ ...settings, speaks: keys.has('speaks') });
  };
  return (
    <MenuTrigger>
      <Button className={styles['button'] ?? ''}>
        More
        <Chevron />
      </Button>
      <Popover className={styles['menu'] ?? ''} placement="top start" offset={8}>
        <Menu aria-label="More" className={styles['list'] ?? ''} onAction={(key) => items.find(({ words }) => words === key)?.act()}>
          <MenuSection>
            <Header className="unseen">Steps</Header>
            {items.map(({ words, key }) => (
              <MenuItem key={words} id={words} textValue={words} className={styles['item'] ?? ''}>
                {words}
                <kbd className="small faint">{key}</kbd>
              </MenuItem>
            ))}
          </MenuSection>
          <MenuSection
            selectionMode="multiple"
            selectedKeys={chosen}
            onSelectionChange={(keys) => choose(new Set(keys === 'all' ? ['strums', 'knocks', 'speaks'] : Array.from(keys, String)))}
          >
            <Header className={`small faint ${styles['heading']}`}>This retune</Header>
            <MenuItem id="strums" textValue="One strum of all at the end" className={styles['item'] ?? ''}>
              One strum of all at the end
              <span className="small">{strums ? 'on' : 'off'}</span>
            </MenuItem>
            <MenuItem id="knocks" textValue="A knock when a course has landed" className={styles['item'] ?? ''}>
              A knock when a course has landed
              <span className="small">{settings.soundCues ? 'on' : 'off'}</span>
            </MenuItem>
            <MenuItem id="speaks" textValue="The next step, spoken" isDisabled={!canSpeak} className={styles['item'] ?? ''}>
              <span>
                The next step, spoken
                {canSpeak ? null : <span className={`small faint ${styles['why']}`}>no English voice on this computer</span>}
              </span>
              <span className="small">{speaks && canSpeak ? 'on' : 'off'}</span>
            </MenuItem>
          </MenuSection>
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
