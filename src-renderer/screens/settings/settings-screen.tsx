/** Settings. */
export const SettingsScreen = () => <h1>Settings</h1>;
