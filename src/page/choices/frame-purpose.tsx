import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { purposes } from '../../facts/index.ts';
import { jobLabels, purposeNames } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import type { Call } from './use-call.ts';

interface FramePurposeProps {
  readonly frame: Frame;
  readonly run: Call['run'];
}

/** What the frame was taken for: only pictures are judged fully. */
export function FramePurpose({ frame, run }: FramePurposeProps): ReactNode {
  return (
    <fieldset className="choice">
      <legend>{jobLabels.takenAs}</legend>
      <div className="picks">
        {purposes.map((purpose) => (
          <label key={purpose}>
            <input
              type="radio"
              name={`purpose of ${frame.id}`}
              checked={frame.purpose === purpose}
              onChange={() => run(() => patchFrame(frame.id, { purpose }))}
            />
            {purposeNames[purpose]}
          </label>
        ))}
      </div>
      <small>{jobLabels.takenAsHelp}</small>
    </fieldset>
  );
}
