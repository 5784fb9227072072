// Whether a retune ends with one strum of all strings, in place of plucking each once more. On until the player turns it off; remembered on this computer.

const remembered = 'stillstring.strumCheck';

export const strumsAtEnd = (): boolean => localStorage.getItem(remembered) !== 'off';

export const keepStrumsAtEnd = (isOn: boolean): void => localStorage.setItem(remembered, isOn ? 'on' : 'off');
