/** Settling. */
export const SettlingScreen = () => <h1>Settling</h1>;
