import { type Dispatch, type ReactNode, useEffect } from 'react';
import type { Strike } from '../../contract/index.ts';
import { contactLabels, jobPageLabels, strikeLabels, titleOf } from '../../words/index.ts';
import { PaperHead } from '../call-sheet/paper-head.tsx';
import { dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { addressOf, cardSeen, type PageAction, type PageState } from '../state/index.ts';
import { StrikeCameras } from './strike-cameras.tsx';
import { AcceptedLines, OpenLines } from './strike-lines.tsx';
import { StrikeShots } from './strike-shots.tsx';
import { StrikeSignature } from './strike-signature.tsx';
import { type StrikeSeen, useStrike } from './use-strike.ts';

interface StrikePageProps {
  readonly state: PageState;
  /** The job that the address names; null for the open one. */
  readonly code: string | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** May the set come down: one sheet, to be mended line by line, printed and signed. */
export function StrikePage({ state, code, dispatch }: StrikePageProps): ReactNode {
  const { jobs, frames, station, link, handOver } = state;
  const seen = useStrike(code, [jobs, frames, station?.secondPlaces, link.state, cardSeen(handOver)]);
  const { check, failed } = seen;
  const job = check?.job ?? code;
  useEffect(() => {
    if (job !== null) document.title = titleOf(strikeLabels.titleOf(job));
  }, [job]);
  return (
    <div className="call-page" data-surround={state.dimSurround ? 'dim' : 'grey'}>
      <nav className="call-acts paper" aria-label={strikeLabels.title}>
        <a href={addressOf({ page: 'set' })}>← {strikeLabels.back}</a>
        {job === null ? null : <a href={addressOf({ page: 'job', job })}>{strikeLabels.toJob}</a>}
        {job === null ? null : <a href={addressOf({ page: 'sheet', job })}>{contactLabels.title}</a>}
        <button type="button" className="press" disabled={check === null} onClick={() => print()}>
          {strikeLabels.print}
        </button>
      </nav>
      <p className="call-acts paper strike-told" role="status" hidden={told(state, seen) === ''}>
        {told(state, seen)}
      </p>
      {check === null ? (
        <main className="call-sheet">
          <h1>{strikeLabels.title}</h1>
          <p role="alert">{failed === '' ? strikeLabels.loading : failed}</p>
        </main>
      ) : (
        <StrikeSheet check={check} say={seen.say} dispatch={dispatch} />
      )}
    </div>
  );
}

/** What went wrong with what is shown, in one line. */
function told({ link }: PageState, { check, failed, refusal }: StrikeSeen): string {
  if (link.state === 'lost') return jobPageLabels.lost;
  if (refusal !== '') return refusal;
  return check === null ? '' : failed;
}

interface SheetProps extends Pick<StrikeSeen, 'say'> {
  readonly check: Strike;
  readonly dispatch: Dispatch<PageAction>;
}

function StrikeSheet({ check, say, dispatch }: SheetProps): ReactNode {
  const { ready, open, shots, at } = check;
  return (
    <main className="call-sheet strike-sheet">
      <Head check={check} />
      <div className="strike-answer">
        <VerdictShape judgement={ready ? 'good' : open[0]?.cost === 'reshoot' ? 'bad' : 'doubt'} />
        <p role="status">{ready ? strikeLabels.ready : strikeLabels.notReady(open.length)}</p>
      </div>
      <p className="strike-caution">{strikeLabels.caution}</p>
      <OpenLines check={check} say={say} dispatch={dispatch} />
      <AcceptedLines check={check} say={say} dispatch={dispatch} />
      <StrikeShots shots={shots} />
      <StrikeCameras check={check} say={say} />
      <StrikeSignature check={check} say={say} />
      <footer>
        {check.job} · {strikeLabels.checked(dayAndTime(Date.parse(at)))}
      </footer>
    </main>
  );
}

function Head({ check: { job, title, client } }: Pick<SheetProps, 'check'>): ReactNode {
  const rows = [
    [strikeLabels.toJob, title === '' ? job : `${job}, ${title}`],
    [strikeLabels.client, client],
  ] as const;
  return <PaperHead title={strikeLabels.title} rows={rows} />;
}
