/** Tunings. */
export const TuningsScreen = () => <h1>Tunings</h1>;
