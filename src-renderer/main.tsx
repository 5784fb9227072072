import './ui/fonts.css';
import './ui/theme.css';
import { RouterProvider } from '@tanstack/react-router';
import { createRoot } from 'react-dom/client';
import { openHost } from './host/index.ts';
import { router } from './screens/routes.tsx';
import { HostProvider } from './stores/host.tsx';
import { Unreachable } from './screens/frame/unreachable.tsx';

const place = document.querySelector('#root');
if (place === null) throw new Error('index.html has no #root');
const page = createRoot(place);

openHost().then(
  (host) =>
    page.render(
      <HostProvider host={host}>
        <RouterProvider router={router} />
      </HostProvider>,
    ),
  (fault: unknown) => page.render(<Unreachable sentence={fault instanceof Error ? fault.message : String(fault)} />),
);
