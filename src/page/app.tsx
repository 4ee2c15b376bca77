import { type Dispatch, lazy, type ReactNode, Suspense, useEffect, useReducer } from 'react';
import {
  clientLabels,
  contactLabels,
  handOverLabels,
  sheetLabels,
  strikeLabels,
  titleOf,
} from '../words/index.ts';
import { CallSheet } from './call-sheet/call-sheet.tsx';
import { JobPage } from './job/job-page.tsx';
import { LinePage } from './line/line-page.tsx';
import { openStationLink } from './link/index.ts';
import { CameraPaper } from './paper-sheet/camera-paper.tsx';
import { ShutOut } from './pocket/shut-out.tsx';
import { keepSwitches, withKeptSwitches } from './set/kept-switches.ts';
import { SetPage } from './set/set-page.tsx';
import { addressOf, type PageAction, type PageState, type Route, reducePage } from './state/index.ts';
import { StrikePage } from './strike/strike-page.tsx';
import { useRoute } from './use-route.ts';
import { useSound } from './voice/index.ts';
import './style/layout.css';
import './style/top.css';
import './style/shots.css';
import './style/caption.css';
import './style/band.css';
import './style/readings.css';
import './style/rail.css';
import './style/cameras.css';
import './style/choices.css';
import './style/job.css';
import './style/remarks.css';
import './style/call-sheet.css';
import './style/strike.css';
import './style/far-view.css';
import './style/sound.css';

/** One ear on the station for all pages; the address says which of them is seen. */
export function App(): ReactNode {
  const [state, dispatch] = useReducer(reducePage, undefined, withKeptSwitches);
  const route = useRoute();
  useEffect(() => openStationLink(dispatch), []);
  const { farView, dimSurround, letterKeys, open } = state;
  useEffect(
    () => keepSwitches({ farView, dimSurround, letterKeys, open }),
    [farView, dimSurround, letterKeys, open],
  );
  useEffect(() => {
    document.title = titleOf(titles[route.page]);
  }, [route.page]);
  if (state.link.state === 'shut-out') return <ShutOut />;
  return (
    <Suspense fallback={null}>
      {route.page === 'client' ? (
        <ClientScreen state={state} back={{ href: addressOf({ page: 'set' }), label: clientLabels.toSet }} />
      ) : (
        <Pages state={state} route={route} dispatch={dispatch} />
      )}
    </Suspense>
  );
}

// Each is loaded when it is wanted: the Set page is the one that must be there at once.
const SheetPage = lazy(async () => ({ default: (await import('./sheet/sheet-page.tsx')).SheetPage }));
const HandOverPage = lazy(async () => ({
  default: (await import('./hand-over/hand-over-page.tsx')).HandOverPage,
}));
const ClientScreen = lazy(async () => ({
  default: (await import('./client/client-screen.tsx')).ClientScreen,
}));

interface PagesProps {
  readonly state: PageState;
  readonly route: Route;
  readonly dispatch: Dispatch<PageAction>;
}

/** All pages on which the station is heard: the client's screen is not one of them. */
function Pages({ state, route, dispatch }: PagesProps): ReactNode {
  const sound = useSound(state);
  if (route.page === 'sheet') return <SheetPage state={state} code={route.job} dispatch={dispatch} />;
  if (route.page === 'job') return <JobPage state={state} code={route.job} dispatch={dispatch} />;
  if (route.page === 'call-sheet') return <CallSheet state={state} code={route.job} />;
  if (route.page === 'line') return <LinePage state={state} />;
  if (route.page === 'camera-sheet') return <CameraPaper state={state} name={route.camera} />;
  if (route.page === 'hand-over') return <HandOverPage state={state} code={route.job} />;
  if (route.page === 'strike') return <StrikePage state={state} code={route.job} dispatch={dispatch} />;
  return <SetPage state={state} sound={sound} dispatch={dispatch} />;
}

const titles = {
  set: 'Set',
  job: 'Job',
  'call-sheet': 'Call sheet',
  strike: strikeLabels.title,
  sheet: contactLabels.title,
  client: clientLabels.title,
  'hand-over': handOverLabels.title,
  line: 'Line',
  'camera-sheet': sheetLabels.title,
} as const;
