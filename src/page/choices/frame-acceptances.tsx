import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { type Question, questions } from '../../facts/index.ts';
import { jobLabels, judgementNames, questionNames, sentence } from '../../words/index.ts';
import { acceptVerdict } from '../link/index.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { ByNameForm } from './by-name-form.tsx';
import type { Call } from './use-call.ts';

interface FrameAcceptancesProps {
  readonly frame: Frame;
  readonly run: Call['run'];
}

/** The verdicts that are not good: each can be taken upon oneself, by name and with a reason. */
export function FrameAcceptances({ frame, run }: FrameAcceptancesProps): ReactNode {
  const open = questions.filter((question) => frame.verdicts[question].judgement !== 'good');
  if (open.length === 0) return null;
  return (
    <section className="choice acceptances">
      <h3>{jobLabels.notGood}</h3>
      <ul>
        {open.map((question) => (
          <Open key={question} question={question} frame={frame} run={run} />
        ))}
      </ul>
    </section>
  );
}

function Open({ question, frame, run }: FrameAcceptancesProps & { readonly question: Question }): ReactNode {
  const { judgement, findings } = frame.verdicts[question];
  const accepted = frame.acceptances.find((each) => each.question === question);
  return (
    <li>
      <p>
        <VerdictShape judgement={judgement} />
        <span>
          <strong>
            {questionNames[question]}: {judgementNames[judgement]}.
          </strong>{' '}
          {findings[0] === undefined ? '' : sentence(findings[0])}
        </span>
      </p>
      {accepted === undefined ? null : (
        <p className="accepted">
          <span>
            {jobLabels.acceptedBy(accepted.name, accepted.reason)}
            {accepted.covers ? '' : ` ${jobLabels.coversNoLonger}`}
          </span>
          <button type="button" onClick={() => run(() => acceptVerdict(frame.id, question, null))}>
            {jobLabels.takeAcceptanceBack}
          </button>
        </p>
      )}
      {accepted?.covers === true ? null : <AcceptForm question={question} frame={frame} run={run} />}
    </li>
  );
}

const labels = {
  name: jobLabels.yourName,
  reason: jobLabels.why,
  example: jobLabels.whyExample,
  take: jobLabels.accept,
};

function AcceptForm({
  question,
  frame,
  run,
}: FrameAcceptancesProps & { readonly question: Question }): ReactNode {
  const seen = frame.verdicts[question].judgement;
  return (
    <details>
      <summary>
        {jobLabels.acceptThis}
        <span className="unseen"> {questionNames[question]}</span>
      </summary>
      <ByNameForm
        className="accept"
        labels={labels}
        onTake={(by) => void run(() => acceptVerdict(frame.id, question, { ...by, seen }))}
      />
    </details>
  );
}
