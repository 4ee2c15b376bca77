import type { ReactNode } from 'react';
import type { BagWork } from '../../contract/index.ts';
import { bagLabels as labels, sentence } from '../../words/index.ts';
import { dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';

type Outcome = NonNullable<BagWork['outcome']>;

/** What became of a package: whether it holds, the figure to keep elsewhere, and what was found. */
export function BagOutcome({ work }: { readonly work: BagWork }): ReactNode {
  const { state, kind, folder, outcome, failure } = work;
  return (
    <>
      <h3>{folder}</h3>
      {state === 'stopped' ? (
        <p role="status">{kind === 'make' ? labels.stoppedMaking : labels.stoppedChecking}</p>
      ) : null}
      {failure === null ? null : (
        <>
          <p className="hand-answer" role="status">
            <VerdictShape judgement="doubt" />
            {labels.failed}
          </p>
          <p>{sentence(failure)}</p>
        </>
      )}
      {outcome === null ? null : <Read work={work} outcome={outcome} />}
    </>
  );
}

function Read({ work, outcome }: { readonly work: BagWork; readonly outcome: Outcome }): ReactNode {
  const { valid, files, bytes, version, payloadOxum, originals, unfinished, leftOut, findings, more } =
    outcome;
  const at = dayAndTime(Date.parse(work.endedAt ?? work.startedAt));
  return (
    <>
      <p className="hand-answer" role="status">
        <VerdictShape judgement={valid ? 'good' : 'bad'} />
        {valid ? labels.valid : labels.notValid}
      </p>
      <p>
        {!valid
          ? labels.checkedBad(files, bytes, at)
          : originals === null
            ? labels.checked(files, bytes, version ?? '', at)
            : labels.made(originals, files, bytes, at)}
      </p>
      {unfinished === null || unfinished === 0 ? null : <p>{labels.unfinished(unfinished)}</p>}
      {leftOut.map((each) => (
        <p key={`${each.code} ${JSON.stringify(each.args)}`}>{sentence(each)}</p>
      ))}
      {valid ? (
        <>
          <p>
            {labels.oxum} <strong className="hand-print">{payloadOxum}</strong>
          </p>
          <p>{labels.keep}</p>
        </>
      ) : (
        <p>{labels.mend}</p>
      )}
      {findings.length === 0 ? null : (
        <details className="hand-details" open={!valid}>
          <summary>{labels.findings}</summary>
          <ul className="hand-files">
            {findings.map(({ finding }) => (
              <li key={`${finding.code} ${JSON.stringify(finding.args)}`}>{sentence(finding)}</li>
            ))}
          </ul>
          {more === 0 ? null : <p>{labels.more(more)}</p>}
        </details>
      )}
    </>
  );
}
