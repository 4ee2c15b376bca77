import type { Dispatch, ReactNode } from 'react';
import type { Strike, StrikeLine } from '../../contract/index.ts';
import { type Finding, type Judgement, judgements, strikeCosts } from '../../facts/index.ts';
import { sentence, strikeCostNames, strikeLabels } from '../../words/index.ts';
import { acceptVerdict, explainLine, unexplainLine } from '../link/index.ts';
import { addressOf, type PageAction } from '../state/index.ts';
import { numberField } from './strike-cameras.tsx';
import { TakeUpon } from './take-upon.tsx';
import type { StrikeSeen } from './use-strike.ts';

interface LinesProps extends Pick<StrikeSeen, 'say'> {
  readonly check: Strike;
  readonly dispatch: Dispatch<PageAction>;
}

/** What is open, worst first, under what it would cost; each line with the way to where it is mended. */
export function OpenLines({ check, say, dispatch }: LinesProps): ReactNode {
  return strikeCosts.map((cost) => {
    const lines = check.open.filter((line) => line.cost === cost);
    if (lines.length === 0) return null;
    return (
      <section key={cost} className="strike-lines">
        <h2>{strikeCostNames[cost]}</h2>
        <ol>
          {lines.map((line) => (
            <li key={line.key}>
              <Said line={line} />
              <Ways line={line} job={check.job} say={say} dispatch={dispatch} />
            </li>
          ))}
        </ol>
      </section>
    );
  });
}

/** What somebody took upon themselves: it stays on the sheet, on paper too. */
export function AcceptedLines({ check, say, dispatch }: LinesProps): ReactNode {
  if (check.accepted.length === 0) return null;
  const takeBack = (line: StrikeLine): Promise<boolean> =>
    line.frame !== null && line.question !== null
      ? say(taking(line.frame, line.question, null))
      : say(() => unexplainLine(check.job, line.key));
  return (
    <section className="strike-lines">
      <h2>{strikeLabels.acceptedTitle}</h2>
      <ol>
        {check.accepted.map((line) => (
          <li key={line.key}>
            <Said line={line} />
            {line.accepted === null ? null : (
              <p className="strike-by">{strikeLabels.acceptedBy(line.accepted.name, line.accepted.reason)}</p>
            )}
            <p className="strike-ways">
              <FrameLink line={line} dispatch={dispatch} />
              <button type="button" onClick={() => void takeBack(line)}>
                {strikeLabels.takeBack}
                <span className="unseen">: {sentence(line.finding)}</span>
              </button>
            </p>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Said({ line: { finding, because } }: { readonly line: StrikeLine }): ReactNode {
  return (
    <p className="strike-said">
      {sentence(finding)}
      {because === null ? null : <span className="strike-because"> {sentence(because)}</span>}
    </p>
  );
}

interface WaysProps extends Pick<LinesProps, 'say' | 'dispatch'> {
  readonly line: StrikeLine;
  readonly job: string;
}

/** Where the line is mended, or taken upon oneself. A camera's number is said in its row below. */
function Ways({ line, job, say, dispatch }: WaysProps): ReactNode {
  const { frame, question, shot, counting, explainable, key, finding } = line;
  const about = sentence(finding);
  return (
    <div className="strike-ways">
      <FrameLink line={line} dispatch={dispatch} />
      {frame === null && (shot !== null || finding.code === 'strike.no-shots') ? (
        <ShotLink finding={finding} job={job} />
      ) : null}
      {frame !== null && question !== null ? (
        <TakeUpon about={about} onTake={(by) => say(taking(frame, question, { ...by, ...seenIn(line) }))} />
      ) : null}
      {counting !== null && finding.code !== 'strike.gap' ? (
        <button type="button" onClick={() => document.getElementById(numberField(counting))?.focus()}>
          {strikeLabels.toNumber}
        </button>
      ) : null}
      {explainable ? <TakeUpon about={about} onTake={(by) => say(() => explainLine(job, key, by))} /> : null}
    </div>
  );
}

/** A hero is marked on the Sheet; a shot that is not listed or has no frame is looked for on the Job page. */
function ShotLink({ finding, job }: { readonly finding: Finding; readonly job: string }): ReactNode {
  return finding.code === 'strike.no-hero' ? (
    <a href={addressOf({ page: 'sheet', job })}>{strikeLabels.showSheet}</a>
  ) : (
    <a href={addressOf({ page: 'job', job })}>{strikeLabels.showJob}</a>
  );
}

function FrameLink({ line, dispatch }: Pick<WaysProps, 'line' | 'dispatch'>): ReactNode {
  const { frame, finding } = line;
  if (frame === null) return null;
  const show = (): void => dispatch({ type: 'choose', id: frame });
  return (
    <a href={addressOf({ page: 'set' })} onClick={show}>
      {strikeLabels.showFrame}
      <span className="unseen">: {sentence(finding)}</span>
    </a>
  );
}

/** The verdict that the line speaks of, as it was read. */
function seenIn({ finding }: StrikeLine): { readonly seen?: Judgement } {
  const seen = judgements.find((judgement) => finding.code === `strike.verdict-${judgement}`);
  return seen === undefined ? {} : { seen };
}

/** A call about a frame answers with the frame: the check is made anew. */
function taking(...[frame, question, by]: Parameters<typeof acceptVerdict>): () => Promise<null> {
  return async () => {
    await acceptVerdict(frame, question, by);
    return null;
  };
}
