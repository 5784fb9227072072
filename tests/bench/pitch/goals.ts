/** What was set as the goal for a class: median / 95th percentile in cents, shown within 3 cents; a dash where nothing was set. */
export const goals: Record<string, string> = {
  'clean nylon': '0.005 / 0.4, 100 %',
  'clean wound': '0.005 / 0.4, 100 %',
  'bass 30-100 Hz': '0.02 / 0.8, 99.5 %',
  'noise 20 dB': '0.04 / 0.5, 100 %',
  'noise 10 dB': '0.08 / 0.5, 100 %',
  'noise 0 dB': '0.20 / 0.8, 99.5 %',
  'mains hum': '0.10 / 1.0, 99 %',
  'speech -15 dB': '98.5 %, before the pluck ≤ 1 %',
  'speech -5 dB': '92 %, before the pluck ≤ 1 %',
  'weak fundamental': '0.10 / 0.5, 100 %',
  'neighbours -20 dB': '99 %',
  'neighbours -10 dB': '95 %',
  'two polarisations': '0.20 / 1.5, 98 %',
  'turning peg': '0.5 / 2.0, 85 %, lag ≤ 60 ms',
  recorded: '99 %',
  'recorded, white 20 dB': '95 %',
  'recorded, pink 20 dB': '95 %',
  'recorded, talk 20 dB': '95 %',
};
export const goalOfAll = '98.5 %, 93 %, 0.1 %, 0.3 %';
export const goalsOfSettling = { C4: '70 / 85', D3: '75 / 85' };
export const goalOfStrums = '0.3 / 1.5';
/** Share of true errors within one and two standard errors. */
export const goalOfSigma = '60–75 % / 92–97 %';
