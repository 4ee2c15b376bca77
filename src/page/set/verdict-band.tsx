import type { Dispatch, ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { type Judgement, type Question, questions } from '../../facts/index.ts';
import {
  exposedFigurePhrase,
  figurePhrase,
  judgementNames,
  pageLabels,
  questionNames,
  settledNames,
} from '../../words/index.ts';
import { columnId } from '../readings/reading-column.tsx';
import { arrivalProgress, isArriving, type PageAction, settledOf } from '../state/index.ts';
import { VerdictShape } from './verdict-shape.tsx';

interface VerdictBandProps {
  readonly frame: Frame | null;
  readonly open: Question | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** Five cards in a row, in the order a photographer asks. */
export function VerdictBand({ frame, open, dispatch }: VerdictBandProps): ReactNode {
  return (
    <section className="band" aria-label={pageLabels.verdicts}>
      {questions.map((question) => (
        <VerdictCard
          key={question}
          question={question}
          frame={frame}
          open={open === question && frame !== null}
          onToggle={() => dispatch({ type: 'open', question })}
        />
      ))}
    </section>
  );
}

interface VerdictCardProps {
  readonly question: Question;
  readonly frame: Frame | null;
  readonly open: boolean;
  readonly onToggle: () => void;
}

function VerdictCard({ question, frame, open, onToggle }: VerdictCardProps): ReactNode {
  const verdict = frame?.verdicts[question] ?? null;
  const judgement: Judgement = verdict?.judgement ?? 'unknown';
  const settled = frame === null ? null : settledOf(frame, question);
  return (
    <div
      className="verdict"
      data-question={question}
      data-judgement={judgement}
      data-settled={settled ?? undefined}
    >
      <button
        type="button"
        className="verdict-card paper"
        aria-expanded={open}
        aria-controls={open ? columnId : undefined}
        disabled={verdict === null}
        onClick={onToggle}
      >
        <span className="verdict-question">{questionNames[question]}</span>
        <span className="verdict-figure">
          {settled !== null ? settledNames[settled] : frame === null ? '' : figureOf(question, frame)}
        </span>
        <span className="verdict-answer">
          <VerdictShape judgement={judgement} />
          <span className="verdict-word">{verdict === null ? '–' : judgementNames[judgement]}</span>
        </span>
      </button>
    </div>
  );
}

/** The one figure that matters (where the verdict is settled, that stands in its place and the figure in the column); while a frame is on its way, how much of it is here. */
function figureOf(question: Question, frame: Frame): string {
  if (question === 'arrived' && isArriving(frame)) {
    const { share } = arrivalProgress(frame);
    if (share !== null) return `${Math.floor(share * 100)} %`;
  }
  const { figure, findings } = frame.verdicts[question];
  if (figure !== null && question === 'exposed')
    return exposedFigurePhrase(findings[0]?.code ?? '', figure.value, figure.unit);
  return figure === null ? '' : figurePhrase(figure.value, figure.unit);
}
