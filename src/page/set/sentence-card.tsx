import { type Dispatch, type ReactNode, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import { frameSentence, sentence } from '../../words/index.ts';
import {
  aboutTheHouse,
  houseFindings,
  inOrder,
  type PageAction,
  type PageState,
  verdictsWithSettled,
} from '../state/index.ts';
import { clockTime } from './clock.ts';
import { clockFindings } from './clock-findings.ts';
import { House } from './house.tsx';
import { LetGo } from './let-go.tsx';
import { useFit } from './use-fit.ts';
import { VerdictShape } from './verdict-shape.tsx';
import { type Standing, worstJudgement } from './worst-judgement.ts';

interface SentenceCardProps {
  readonly state: PageState;
  readonly frame: Frame | null;
  readonly frames: readonly Frame[];
  /** Why the last mark was not taken; null where it was. */
  readonly markLost: Finding | null;
  readonly dispatch: Dispatch<PageAction>;
}

interface Said {
  readonly judgement: Standing;
  readonly text: string;
  /** Changes when something new is said, not when a figure in it moves. */
  readonly gist: string;
}

/** What the station has to say, in one line of plain words, and beside it what else needs a look. */
export function SentenceCard({ state, frame, frames, markLost, dispatch }: SentenceCardProps): ReactNode {
  const said = whatIsSaid(state, frame);
  const text = useRef<HTMLParagraphElement>(null);
  useFit(text, said.text, '.sentence-card', 2);
  const house = inOrder([
    ...(markLost === null ? [] : [aboutTheHouse('bad', markLost)]),
    ...(state.station === null ? [] : houseFindings(state.station, frames, frame?.id ?? null)),
    ...(frame === null ? [] : clockFindings(frame)),
  ]);
  return (
    <div className="sentence-card paper">
      <VerdictShape judgement={said.judgement} />
      <p className="sentence" data-testid="sentence" aria-hidden="true" ref={text}>
        {said.text}
      </p>
      <SpokenSentence said={said} />
      {frame === null ? null : <LetGo frame={frame} />}
      <House findings={house} dispatch={dispatch} />
    </div>
  );
}

/**
 * The same sentence for a screen reader, which would otherwise read every percent of an arrival: it changes only when
 * the gist does.
 */
function SpokenSentence({ said }: { readonly said: Said }): ReactNode {
  const last = useRef(said);
  if (last.current.gist !== said.gist) last.current = said;
  return (
    <p className="unseen" aria-live="polite">
      {last.current.text}
    </p>
  );
}

function whatIsSaid(state: PageState, frame: Frame | null): Said {
  const link = aboutLink(state);
  if (link !== null) return { judgement: 'bad', text: sentence(link), gist: link.code };
  if (frame !== null) return aboutFrame(frame);
  const finding = { code: nothingYetCode(state), args: {} };
  return { judgement: 'unknown', text: sentence(finding), gist: finding.code };
}

function aboutLink({ link }: PageState): Finding | null {
  if (link.state === 'lost')
    return { code: 'page.connection-lost', args: { since: clockTime(link.sinceMs) } };
  if (link.state === 'shut-out') return { code: 'page.shut-out', args: {} };
  if (link.state === 'not-understood') return { code: 'page.not-understood', args: {} };
  return null;
}

function nothingYetCode({ station }: PageState): string {
  if (station === null) return 'page.connecting';
  if (station.demo) return 'page.demo-drawing';
  const reached = station.cameras.some((camera) => camera.lastSeen !== null);
  return reached ? 'page.nothing-yet' : 'page.no-camera-yet';
}

function aboutFrame(frame: Frame): Said {
  const reason = frame.picture.state === 'cannot' ? frame.picture.reason : null;
  const judgement = worstJudgement(frame);
  const codes = Object.values(frame.verdicts).map((verdict) => verdict.findings[0]?.code);
  return {
    judgement,
    text: frameSentence(verdictsWithSettled(frame), reason),
    gist: [frame.id, reason?.code, judgement, ...codes].join(' '),
  };
}
