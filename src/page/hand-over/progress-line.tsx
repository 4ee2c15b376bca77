import type { ReactNode } from 'react';
import { handOverLabels } from '../../words/index.ts';

interface ProgressLineProps {
  /** What goes on, for who only hears the page. */
  readonly name: string;
  readonly done: number;
  readonly of: number;
  readonly words: string;
  readonly toGoMs?: number | null;
}

/** How far something is: a bar, and the same in words. Nothing is known yet where `of` is 0. */
export function ProgressLine({ name, done, of, words, toGoMs = null }: ProgressLineProps): ReactNode {
  return (
    <div className="hand-progress">
      <progress aria-label={name} {...(of === 0 ? {} : { max: of, value: Math.min(done, of) })} />
      <p>
        {words}
        {toGoMs === null ? '' : `, ${handOverLabels.toGo(toGoMs)}`}
      </p>
    </div>
  );
}
