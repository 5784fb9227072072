/** The sections of the app, in the order of the navigation. One appears here when it works. */
export const sections = [
  { path: '/retune', words: 'Retune' },
  { path: '/settling', words: 'Settling' },
  { path: '/tunings', words: 'Tunings' },
  { path: '/instruments', words: 'Instruments' },
] as const;
