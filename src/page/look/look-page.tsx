import { type ReactNode, useEffect, useReducer, useState } from 'react';
import { lookLabels, titleOf } from '../../words/index.ts';
import { openStationLink } from '../link/index.ts';
import { ShutOut } from '../pocket/shut-out.tsx';
import { withKeptSwitches } from '../set/kept-switches.ts';
import { reducePage } from '../state/index.ts';
import { LookDesk } from './look-desk.tsx';
import { askedOf, lookAddress, subjectOf } from './subject.ts';
import '../style/look-page.css';
import '../style/look-picture.css';
import '../style/look-bench.css';
import '../style/look-figures.css';
import '../style/look-copies.css';
import '../style/look-small.css';

/** The page on which looks are made: the address says of which frame, shot or job. */
export function LookPage(): ReactNode {
  const [state, dispatch] = useReducer(reducePage, undefined, withKeptSwitches);
  const [asked, setAsked] = useState(() => askedOf(location.search));
  useEffect(() => openStationLink(dispatch), []);
  useEffect(() => {
    document.title = titleOf(lookLabels.title);
    const moved = (): void => setAsked(askedOf(location.search));
    addEventListener('popstate', moved);
    return () => removeEventListener('popstate', moved);
  }, []);
  if (state.link.state === 'shut-out') return <ShutOut />;
  const go = (frame: string): void => {
    const next = { ...asked, frame };
    history.replaceState(null, '', lookAddress(next));
    setAsked(next);
  };
  return (
    <LookDesk state={state} subject={subjectOf(state, asked)} isAsked={asked.frame !== null} onFrame={go} />
  );
}
