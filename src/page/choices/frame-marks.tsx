import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { marks } from '../../facts/index.ts';
import { markNames, pageLabels } from '../../words/index.ts';
import { patchMark } from '../link/index.ts';
import type { Call } from './use-call.ts';

interface FrameMarksProps {
  readonly frame: Frame;
  readonly run: Call['run'];
}

export function FrameMarks({ frame, run }: FrameMarksProps): ReactNode {
  return (
    <fieldset className="choice">
      <legend>{pageLabels.mark}</legend>
      <div className="picks">
        {marks.map((mark) => (
          <label key={mark}>
            <input
              type="radio"
              name={`mark of ${frame.id}`}
              checked={frame.mark === mark}
              onChange={() => run(() => patchMark(frame.id, mark))}
            />
            {markNames[mark]}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
