import { lazy, type ReactNode, Suspense, useEffect, useReducer } from 'react';
import { pocketLabels } from '../../words/index.ts';
import { openStationLink } from '../link/index.ts';
import { firstState, reducePage } from '../state/index.ts';
import { useRoute } from '../use-route.ts';
import { PocketPage } from './pocket-page.tsx';
import { ShutOut } from './shut-out.tsx';

// A phone on the tripod has no use for it.
const ClientScreen = lazy(async () => ({
  default: (await import('../client/client-screen.tsx')).ClientScreen,
}));

/** A device with a pocket's link: the phone itself, or, by what stands behind `#`, a screen that faces the client. */
export function PocketDoor(): ReactNode {
  return useRoute().page === 'client' ? <ClientsDevice /> : <PocketPage />;
}

function ClientsDevice(): ReactNode {
  const [state, dispatch] = useReducer(reducePage, firstState);
  useEffect(() => openStationLink(dispatch, 'pocket'), []);
  if (state.link.state === 'shut-out') return <ShutOut />;
  return (
    <Suspense fallback={null}>
      <ClientScreen state={state} back={{ href: '#/', label: pocketLabels.title }} />
    </Suspense>
  );
}
