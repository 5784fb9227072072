/** Instruments. */
export const InstrumentsScreen = () => <h1>Instruments</h1>;
