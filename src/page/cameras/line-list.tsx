import type { ReactNode } from 'react';
import type { CameraEntry } from '../../contract/index.ts';
import { pageLabels, sentence } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { dayTick } from '../set/clock.ts';

/** What happened on the line, one row each: when, whose it is, in plain words. */
export function LineList({
  lines,
}: {
  readonly lines: readonly Pick<CameraEntry['log'][number], 'at' | 'camera' | 'finding'>[];
}): ReactNode {
  return (
    <ol className="line-list">
      {lines.map(({ at, camera, finding }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name of their own
        <li key={index}>
          <time dateTime={at}>{dayTick(Date.parse(at))}</time>
          <span>{camera ?? pageLabels.stranger}</span>
          <span>
            <PlainWords text={sentence(finding)} />
          </span>
        </li>
      ))}
    </ol>
  );
}
