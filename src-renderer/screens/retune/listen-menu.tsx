import { Button, Header, Menu, MenuItem, MenuSection, MenuTrigger, Popover } from 'react-aria-components';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { aloud, speakAloud } from '../../stores/aloud.ts';
import { useChange } from '../../stores/library.ts';
import { Chevron } from '../../ui/chevron.tsx';
import type { Steps } from './use-led.ts';
import styles from './listen-menu.module.css';

/** The seldom steps of a player who is being led, each with its key, and what is to be heard. */
export function ListenMenu({ steps, settings }: { readonly steps: Steps; readonly settings: Settings }) {
  const save = useChange('settings.save');
  const speaks = useStore(aloud, (state) => state.speaks);
  const canSpeak = useStore(aloud, (state) => state.canSpeak);
  const items = [
    { words: 'Skip this course', key: 'Page Down', act: steps.skip },
    { words: 'Undo the last step', key: 'Page Up, Z', act: steps.back },
    { words: 'This string is new', key: 'R', act: steps.restring },
    { words: 'End here', key: 'Esc', act: steps.end },
  ];
  const sounds = [...(settings.soundCues ? ['knocks'] : []), ...(speaks && canSpeak ? ['speaks'] : [])];
  const choose = (chosen: ReadonlySet<string>) => {
    if (chosen.has('knocks') !== settings.soundCues) save.mutate({ ...settings, soundCues: chosen.has('knocks') });
    if (canSpeak && chosen.has('speaks') !== speaks) speakAloud(chosen.has('speaks'));
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
            selectedKeys={sounds}
            onSelectionChange={(keys) => choose(new Set(keys === 'all' ? ['knocks', 'speaks'] : Array.from(keys, String)))}
          >
            <Header className={`small faint ${styles['heading']}`}>To be heard</Header>
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
