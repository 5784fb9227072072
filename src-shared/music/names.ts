// Note names without octave, as people of three languages type and write them. Inside, a name is always English in ASCII: `Eb`, `F##`.

/** How note names are read and written. Only `B` means two things: B natural in English, B flat in German. */
export const noteLanguages = ['english', 'german', 'fixed-do'] as const;
export type NoteLanguage = (typeof noteLanguages)[number];

const syllables: Readonly<Record<string, string>> = { do: 'C', ut: 'C', re: 'D', mi: 'E', fa: 'F', sol: 'G', la: 'A', si: 'B' };

const signs: readonly (readonly [RegExp, string])[] = [
  [/𝄫/gu, 'bb'],
  [/𝄪/gu, '##'],
  [/♭/gu, 'b'],
  [/♯/gu, '#'],
  [/♮/gu, ''],
  [/[-\s]+(?:double[-\s]flat|doppio bemolle|double b[eé]mol|doble bemol)(?![a-z])/giu, 'bb'],
  [/[-\s]+(?:double[-\s]sharp|doppio diesis|double di[eè]se|doble sostenido)(?![a-z])/giu, '##'],
  [/[-\s]+(?:flat|bemolle|b[eé]mol)(?![a-z])/giu, 'b'],
  [/[-\s]+(?:sharp|diesis|di[eè]se|sostenido|sustenido)(?![a-z])/giu, '#'],
];

/** Turns true signs and sign words into `b` and `#`, in a name or a whole row: `E flat4` → `Eb4`, `si bémol` → `sib`. */
export const plainSigns = (text: string): string => signs.reduce((soFar, [sign, letters]) => soFar.replace(sign, letters), text);

const german = /^(?:([ae])s|([a-h])(is|es))(is|es|as|s)?$/u;

/** German syllables: `es` and `as` drop a vowel, `H` is B natural. */
function readGerman(name: string): string | null {
  if (name === 'asas') return 'Abb';
  const [, short, letter, sign, second] = german.exec(name) ?? [];
  const kind = short === undefined ? sign : 'es';
  const plain = short ?? letter;
  if (plain === undefined || kind === undefined || plain === 'b') return null;
  if (short === undefined && /[ae]/u.test(plain) && kind === 'es') return null;
  if (second !== undefined && second !== kind) return null;
  const mark = kind === 'es' ? 'b' : '#';
  return (plain === 'h' ? 'B' : plain.toUpperCase()) + mark.repeat(second === undefined ? 1 : 2);
}

/**
 * Reads a note name without octave; upper or lower case alike. Names that mean one thing only (`es`, `fis`) are read in English too.
 * Null where it is none. `readName('es', 'english')` → `Eb`; `readName('B', 'german')` → `Bb`; `readName('sol#', 'fixed-do')` → `G#`.
 */
export function readName(text: string, language: NoteLanguage): string | null {
  const name = plainSigns(text.trim()).toLowerCase().replace('é', 'e');
  if (language === 'fixed-do') {
    const [, syllable, mark] = /^(do|ut|re|mi|fa|sol|la|si)(bb?|##?)?$/u.exec(name) ?? [];
    const letter = syllables[syllable ?? ''];
    return letter === undefined ? null : letter + (mark ?? '');
  }
  if (language === 'german') {
    if (name === 'b' || name === 'bb') return 'Bb';
    if (name === 'h') return 'B';
    if (name.startsWith('b')) return null;
  }
  const [, letter, mark] = (language === 'german' ? /^([a-h])(bb?|##?)?$/u : /^([a-g])(bb?|##?)?$/u).exec(name) ?? [];
  if (letter !== undefined) return (letter === 'h' ? 'B' : letter.toUpperCase()) + (mark ?? '');
  return language === 'english' && name.startsWith('h') ? null : readGerman(name);
}

const germanWords: Readonly<Record<string, string>> = { B: 'H', Bb: 'B', Bbb: 'Heses', Ab: 'As', Abb: 'Asas', Eb: 'Es', Ebb: 'Eses' };
const signWords: Readonly<Record<string, string>> = { '': '', b: 'es', bb: 'eses', '#': 'is', '##': 'isis' };
const syllableOf: Readonly<Record<string, string>> = { C: 'Do', D: 'Re', E: 'Mi', F: 'Fa', G: 'Sol', A: 'La', B: 'Si' };

/** Writes a name for people to read, with true signs. `writeName('Eb', 'german')` → `Es`; `writeName('Bb', 'fixed-do')` → `Si♭`. */
export function writeName(name: string, language: NoteLanguage): string {
  const [letter, mark] = [name.charAt(0), name.slice(1)];
  if (language === 'german') return germanWords[name] ?? (letter === 'B' ? 'H' : letter) + (signWords[mark] ?? '');
  const word = language === 'fixed-do' ? (syllableOf[letter] ?? letter) : letter;
  return word + mark.replaceAll('b', '♭').replaceAll('#', '♯');
}
