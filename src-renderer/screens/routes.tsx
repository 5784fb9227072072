import {
  createHashHistory,
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  Navigate,
  type RouteComponent,
} from '@tanstack/react-router';
import { readAddress } from './address.ts';
import { Frame } from './frame/frame.tsx';
import { InstrumentsScreen } from './instruments/instruments-screen.tsx';

const root = createRootRoute({
  component: Frame,
  validateSearch: readAddress,
});

const screen = <Path extends `/${string}`>(path: Path, component: RouteComponent) =>
  createRoute({ getParentRoute: () => root, path, component });

// The first screen comes with the page; the others when they are first gone to.
const routes = root.addChildren([
  createRoute({ getParentRoute: () => root, path: '/', component: () => <Navigate to="/instruments" /> }),
  screen(
    '/retune',
    lazyRouteComponent(() => import('./retune/retune-screen.tsx'), 'RetuneScreen'),
  ),
  screen(
    '/settling',
    lazyRouteComponent(() => import('./settling/settling-screen.tsx'), 'SettlingScreen'),
  ),
  screen(
    '/tunings',
    lazyRouteComponent(() => import('./tunings/tunings-screen.tsx'), 'TuningsScreen'),
  ),
  screen('/instruments', InstrumentsScreen),
  screen(
    '/settings',
    lazyRouteComponent(() => import('./settings/settings-screen.tsx'), 'SettingsScreen'),
  ),
]);

export const router = createRouter({ routeTree: routes, history: createHashHistory() });

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
