import { describe, expect, test } from 'vitest';
import { presetById, stringing } from '#shared/instruments/index.ts';
import { pitchMidi } from '#shared/music/index.ts';

// Sounding pitches as MIDI numbers, per course from the player's eye down. L = LilyPond 2.24.1 string tunings, M = MuseScore 3.2.3 instrument data,
// P = python-mingus tunings, Z = Zabolekar/acordes, W = encyclopedia articles (re-entrant tuning, charango, cuatro, tiple, bouzouki), H = h2g2's entries.
// Where the sources contradict one another the reading that fits the instrument is kept: charango fourth course C5 (W), not C4 (P); Colombian tiple
// second course B4 B3 B4 (W), not three B3 (P).
describe('published tunings of the instruments', () => {
  test.each([
    ['ukulele-soprano-high-g', '67 60 64 69', 're-entrant', 'L, M, W'],
    ['ukulele-concert-high-g', '67 60 64 69', 're-entrant', 'L, M, W'],
    ['ukulele-tenor-high-g', '67 60 64 69', 're-entrant', 'M, W'],
    ['ukulele-tenor-low-g', '55 60 64 69', 'linear', 'L, M, W'],
    ['ukulele-soprano-d6', '69 62 66 71', 're-entrant', 'L, W'],
    ['ukulele-tenor-d6-low-a', '57 62 66 71', 'linear', 'from memory'],
    ['ukulele-tenor-g6', '62 55 59 64', 're-entrant', 'W'],
    ['ukulele-baritone', '50 55 59 64', 'linear', 'L, M, W'],
    ['ukulele-baritone-high-d', '62 55 59 64', 're-entrant', 'W, from memory'],
    ['ukulele-baritone-c6', '67 60 64 69', 're-entrant', 'sets sold for it'],
    ['guitar-classical', '40 45 50 55 59 64', 'linear', 'L, M, P'],
    ['guitar-steel', '40 45 50 55 59 64', 'linear', 'L, P'],
    ['guitar-twelve-string', '52,40 57,45 62,50 67,55 59,59 64,64', 'linear', 'P'],
    ['guitar-guitalele', '45 50 55 60 64 69', 'linear', 'P'],
    ['guitar-tenor', '48 55 62 69', 'linear', 'M, P'],
    ['guitar-tenor-like-guitar', '50 55 59 64', 'linear', 'from memory'],
    ['guitar-tenor-octave', '43 50 57 64', 'linear', 'M'],
    ['bass-four', '28 33 38 43', 'linear', 'L, P; M writes it an octave higher'],
    ['bass-five', '23 28 33 38 43', 'linear', 'L, P'],
    ['mandolin', '55,55 62,62 69,69 76,76', 'linear', 'L, M, P'],
    ['mandola', '48,48 55,55 62,62 69,69', 'linear', 'M, P'],
    ['mandolin-octave', '43,43 50,50 57,57 64,64', 'linear', 'M, P'],
    ['mandocello', '36,36 43,43 50,50 57,57', 'linear', 'M, P'],
    ['banjo-five-string', '67 50 55 59 62', 're-entrant', 'L, M, P'],
    ['banjo-tenor', '48 55 62 69', 'linear', 'M, P'],
    ['banjo-irish-tenor', '43 50 57 64', 'linear', 'M, P'],
    ['charango', '67,67 72,72 76,64 69,69 76,76', 're-entrant', 'W'],
    ['ronroco', '55,55 60,60 64,52 57,57 64,64', 're-entrant', 'P but for the fourth course'],
    ['cavaquinho-brazil', '62 67 71 74', 'linear', 'M, Z'],
    ['cavaquinho-like-guitar', '62 67 71 76', 'linear', 'Z'],
    ['cavaquinho-portugal', '67 67 71 74', 'linear', 'Z'],
    ['timple', '67 72 64 69 74', 're-entrant', 'Z'],
    ['cuatro-venezuela', '57 62 66 59', 're-entrant', 'W'],
    ['cuatro-puerto-rico', '59,47 64,52 57,57 62,62 67,67', 'linear', 'P, W'],
    ['bouzouki-greek-three', '62,50 57,57 62,62', 'linear', 'H, P, W'],
    ['bouzouki-greek-four', '60,48 65,53 57,57 62,62', 'linear', 'H, P, W'],
    ['bouzouki-irish', '43,43 50,50 57,57 62,62', 'linear', 'H, P'],
    ['bouzouki-irish-octaves', '55,43 62,50 57,57 62,62', 'linear', 'P'],
    ['bouzouki-irish-fifths', '43,43 50,50 57,57 64,64', 'linear', 'H, P'],
    ['tiple-colombia', '62,50,62 67,55,67 71,59,71 64,64,64', 'linear', 'W'],
    ['tiple-colombia-low', '60,48,60 65,53,65 69,57,69 62,62,62', 'linear', 'W'],
    ['balalaika-prima', '64 64 69', 'linear', 'M, Z'],
  ])('%s: %s, %s (%s)', (id, numbers, order) => {
    const home = presetById(id)!.courses.map((course) => course.home);
    expect(home.map((course) => course.map(pitchMidi).join(',')).join(' ')).toBe(numbers);
    expect(stringing(home)).toBe(order);
  });
});
