import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import { questionNames, readingLabels, sentence } from '../../words/index.ts';
import { isPlaceUntold } from './is-place-untold.ts';
import { laidQuestions } from './laid.ts';
import { SheetHandle } from './sheet-handle.tsx';
import type { LaidSwitch } from './use-laid-choice.ts';

/** What a verdict's card opens. */
export const columnId = 'reading-column';

interface ReadingColumnProps {
  readonly question: Question;
  readonly frame: Frame;
  readonly laid: LaidSwitch;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/**
 * All that stands behind one verdict: its findings, its plots, and the switch for its map over the picture. The picture
 * gives way to it; on a phone it is a sheet below the picture.
 */
export function ReadingColumn({ question, frame, laid, onClose, children }: ReadingColumnProps): ReactNode {
  const { choice, change } = laid;
  return (
    <aside
      id={columnId}
      className="reading-column paper"
      data-question={question}
      aria-label={questionNames[question]}
    >
      <SheetHandle onClose={onClose} />
      <header>
        <h2>{questionNames[question]}</h2>
        {laidQuestions.includes(question) && !isPlaceUntold(frame) ? (
          <button type="button" aria-pressed={choice.on} onClick={() => change({ on: !choice.on })}>
            {readingLabels.overPicture}
          </button>
        ) : null}
        <button type="button" className="reading-close" aria-label={readingLabels.close} onClick={onClose}>
          ×
        </button>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard */}
      <section className="reading-scroll" tabIndex={0} aria-label={questionNames[question]}>
        <ul className="reading-findings">
          {frame.verdicts[question].findings.map((finding) => (
            <li key={finding.code}>{sentence(finding)}</li>
          ))}
        </ul>
        {isPlaceUntold(frame) ? <p className="plot-none">{readingLabels.placedOtherwise}</p> : null}
        {children}
      </section>
    </aside>
  );
}
