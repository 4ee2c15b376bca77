import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { frameShares, type FrameShare as Share } from '../../facts/index.ts';
import { remarkLabels } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import type { Call } from './use-call.ts';

interface FrameShareProps {
  readonly frame: Frame;
  readonly run: Call['run'];
}

/** Whether guests see the frame: by its mark, or as a hand says. */
export function FrameShare({ frame, run }: FrameShareProps): ReactNode {
  return (
    <fieldset className="choice">
      <legend>{remarkLabels.shareTitle}</legend>
      <div className="picks">
        {[null, ...frameShares].map((share) => (
          <label key={share}>
            <input
              type="radio"
              name={`share of ${frame.id}`}
              checked={frame.share === share}
              onChange={() => run(() => patchFrame(frame.id, { share }))}
            />
            {shareNames[share ?? 'by-mark']}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

const shareNames: Readonly<Record<Share | 'by-mark', string>> = {
  'by-mark': remarkLabels.shareByMark,
  shown: remarkLabels.shareShown,
  'kept-back': remarkLabels.shareKeptBack,
};
