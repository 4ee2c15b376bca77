import { type ReactNode, useState } from 'react';
import type { Speaker } from '../../contract/index.ts';
import { remarkLabels, saidBy, speakerName } from '../../words/index.ts';
import { clockTime } from '../set/clock.ts';
import type { SaidRemark } from './said-remarks.ts';
import { SayForm } from './say-form.tsx';
import { UnsentNote } from './unsent-note.tsx';
import type { OutboxOfPage } from './use-outbox.ts';

interface RemarkThreadProps {
  readonly remark: SaidRemark;
  /** What stands on its pin. */
  readonly name: string;
  readonly isChosen: boolean;
  readonly outbox: Pick<OutboxOfPage, 'tryAgain' | 'throwAway'>;
  readonly onAnswer: (text: string, name: string) => void;
  /** Null where it is not this page's to say. */
  readonly onSettle: ((settled: boolean) => void) | null;
}

/** One remark with its answers, each with who said it and when. What people wrote is text and nothing else. */
export function RemarkThread({
  remark,
  name,
  isChosen,
  outbox,
  onAnswer,
  onSettle,
}: RemarkThreadProps): ReactNode {
  const [isAnswering, setAnswering] = useState(false);
  const { settled, waits } = remark;
  return (
    <li className="remark" data-settled={settled !== null} data-chosen={isChosen} data-remark={remark.id}>
      <p className="remark-head">
        <span className="pin-name" data-settled={settled !== null}>
          {name}
        </span>
        <Said by={remark.by} at={remark.at} />
        {remark.inside ? <em>{remarkLabels.inside}</em> : null}
        {settled === null ? null : <em>{remarkLabels.settled}</em>}
      </p>
      <p className="remark-text">{remark.text}</p>
      {waits === null ? null : <UnsentNote outgoing={waits} outbox={outbox} />}
      {remark.answers.map((answer) => (
        <div className="remark-answer" key={answer.id}>
          <p className="remark-head">
            <Said by={answer.by} at={answer.at} />
          </p>
          <p className="remark-text">{answer.text}</p>
        </div>
      ))}
      {remark.waitingAnswers.map((outgoing) => (
        <div className="remark-answer" key={outgoing.letter.body.id}>
          <p className="remark-text">{'text' in outgoing.letter.body ? outgoing.letter.body.text : ''}</p>
          <UnsentNote outgoing={outgoing} outbox={outbox} />
        </div>
      ))}
      {isAnswering ? (
        <SayForm
          label={remarkLabels.answerText}
          takesFocus
          onSay={(text, by) => {
            onAnswer(text, by);
            setAnswering(false);
          }}
          onLeave={() => setAnswering(false)}
        />
      ) : waits === null && remark.at !== '' ? (
        <p className="say-acts">
          <button type="button" onClick={() => setAnswering(true)}>
            {remarkLabels.answer}
            <span className="unseen"> {name}</span>
          </button>
          {onSettle === null ? null : (
            <button type="button" onClick={() => onSettle(settled === null)}>
              {settled === null ? remarkLabels.settle : remarkLabels.reopen}
              <span className="unseen"> {name}</span>
            </button>
          )}
        </p>
      ) : null}
    </li>
  );
}

function Said({ by, at }: { readonly by: Speaker; readonly at: string }): ReactNode {
  const who = speakerName(by);
  return <span>{at === '' ? who : saidBy(who, clockTime(Date.parse(at)))}</span>;
}
