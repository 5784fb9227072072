import { createHashHistory, createRootRoute, createRoute, createRouter, Navigate } from '@tanstack/react-router';
import { readAddress } from './address.ts';
import { Frame } from './frame/frame.tsx';
import { InstrumentsScreen } from './instruments/instruments-screen.tsx';
import { RetuneScreen } from './retune/retune-screen.tsx';
import { SettingsScreen } from './settings/settings-screen.tsx';
import { SettlingScreen } from './settling/settling-screen.tsx';
import { TuningsScreen } from './tunings/tunings-screen.tsx';

const root = createRootRoute({
  component: Frame,
  validateSearch: readAddress,
});

const screen = <Path extends `/${string}`>(path: Path, component: () => React.ReactNode) =>
  createRoute({ getParentRoute: () => root, path, component });

const routes = root.addChildren([
  createRoute({ getParentRoute: () => root, path: '/', component: () => <Navigate to="/instruments" /> }),
  screen('/retune', RetuneScreen),
  screen('/settling', SettlingScreen),
  screen('/tunings', TuningsScreen),
  screen('/instruments', InstrumentsScreen),
  screen('/settings', SettingsScreen),
]);

export const router = createRouter({ routeTree: routes, history: createHashHistory() });

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
