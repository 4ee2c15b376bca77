import { type ReactNode, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { Finding, Judgement } from '../../facts/index.ts';
import { frameSentence, sentence } from '../../words/index.ts';
import { type HouseFinding, houseFindings, type PageState } from '../state/index.ts';
import { clockTime } from './clock.ts';
import { LetGo } from './let-go.tsx';
import { VerdictShape } from './verdict-shape.tsx';
import { worstJudgement } from './worst-judgement.ts';

interface SentenceCardProps {
  readonly state: PageState;
  readonly frame: Frame | null;
  readonly frames: readonly Frame[];
  /** Name of the frame whose mark was not taken; null where all were. */
  readonly markLost: string | null;
}

interface Said {
  readonly judgement: Judgement;
  readonly text: string;
  /** Changes when something new is said, not when a figure in it moves. */
  readonly gist: string;
}

/** House findings beside the sentence; a third would not be read. */
const houseFindingsShown = 2;

/** What the station has to say, in one line of plain words. */
export function SentenceCard({ state, frame, frames, markLost }: SentenceCardProps): ReactNode {
  const said = whatIsSaid(state, frame);
  const house = [
    ...(markLost === null ? [] : [markNotKept(markLost)]),
    ...(state.station === null ? [] : houseFindings(state.station, frames)),
  ]
    .filter(({ finding }) => !(finding.code === 'page.one-place' && saysOnePlace(frame)))
    .slice(0, houseFindingsShown);
  return (
    <div className="sentence-card paper">
      <VerdictShape judgement={said.judgement} />
      <p className="sentence" data-testid="sentence" aria-hidden="true">
        {said.text}
      </p>
      <SpokenSentence said={said} />
      {frame === null ? null : <LetGo frame={frame} />}
      {house.length === 0 ? null : (
        <ul className="house">
          {house.map(({ judgement, finding }) => (
            <li key={finding.code}>
              <VerdictShape judgement={judgement} />
              {sentence(finding)}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** Where the frame's own verdict says so already, the house need not. */
function saysOnePlace(frame: Frame | null): boolean {
  return frame?.verdicts.arrived.findings.some(({ code }) => code === 'arrived.one-place') ?? false;
}

function markNotKept(name: string): HouseFinding {
  return { judgement: 'bad', finding: { code: 'page.mark-not-kept', args: { name } } };
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
  const reached = station.cameras.some((camera) => camera.lastSeen !== null);
  return reached ? 'page.nothing-yet' : 'page.no-camera-yet';
}

function aboutFrame(frame: Frame): Said {
  const reason = frame.picture.state === 'cannot' ? frame.picture.reason : null;
  const judgement = worstJudgement(frame);
  const codes = Object.values(frame.verdicts).map((verdict) => verdict.findings[0]?.code);
  return {
    judgement,
    text: frameSentence(frame.verdicts, reason),
    gist: [frame.id, reason?.code, judgement, ...codes].join(' '),
  };
}
