import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/** Something that the player did to the library, as a sentence without its full stop (`Removed Open C`), and how it is taken back. */
type Done = { readonly words: string; readonly takeBack: () => Promise<unknown> };

/** As many steps back as anybody remembers (own choice). */
const most = 50;

/** What can be taken back since the app was opened, the last thing last, and why the last attempt did not work. */
export const undoing = createStore<{ readonly done: readonly Done[]; readonly problem: string | null; readonly isBusy: boolean }>(() => ({
  done: [],
  problem: null,
  isBusy: false,
}));

/** Notes that something was done, and how it is taken back. */
export const noteDone = (words: string, takeBack: () => Promise<unknown>): void =>
  undoing.setState(({ done }) => ({ done: [...done, { words, takeBack }].slice(-most), problem: null }));

/** Takes back what was done last. Does nothing where there is nothing, or while the last step back is still under way. */
export async function takeBackLast(): Promise<void> {
  const { done, isBusy } = undoing.getState();
  const last = done.at(-1);
  if (last === undefined || isBusy) return;
  undoing.setState({ isBusy: true });
  try {
    await last.takeBack();
    undoing.setState((now) => ({ done: now.done.filter((one) => one !== last), problem: null }));
  } catch (fault) {
    undoing.setState({ problem: `Not undone: ${fault instanceof Error ? fault.message : String(fault)}` });
  } finally {
    undoing.setState({ isBusy: false });
  }
}

/** Forgets everything that was done: the library is another one now. */
export const forgetDone = (): void => undoing.setState({ done: [], problem: null });

/** What was done last, in words, or null; and why the last step back did not work, or null. */
export const useUndo = (): { readonly last: string | null; readonly problem: string | null } => {
  const last = useStore(undoing, ({ done }) => done.at(-1)?.words ?? null);
  const problem = useStore(undoing, (state) => state.problem);
  return { last, problem };
};
