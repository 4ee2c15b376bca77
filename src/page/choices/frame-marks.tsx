import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { marks } from '../../facts/index.ts';
import { jobLabels, markNames, pageLabels } from '../../words/index.ts';
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
              onChange={() => run(() => patchMark(frame, mark))}
            />
            {markNames[mark]}
          </label>
        ))}
      </div>
      <CameAlong frame={frame} run={run} />
    </fieldset>
  );
}

/** What the camera, or a sidecar, says of the mark: a suggestion, or beside a person's word what differs from it. */
function CameAlong({ frame, run }: FrameMarksProps): ReactNode {
  const { sidecar, suggestedMark, mark: said } = frame;
  const differs = sidecar?.differs === true ? sidecar.mark : null;
  const other = differs ?? suggestedMark;
  const words = [sidecar?.title, sidecar?.description, sidecar?.creator, sidecar?.rights].filter(
    (text) => typeof text === 'string',
  );
  return (
    <>
      {other === null ? null : (
        <p role="note">
          {differs === null
            ? jobLabels.suggestedMark(markNames[other], sidecar?.name ?? null)
            : jobLabels.sidecarDiffers(sidecar?.name ?? '', markNames[differs], markNames[said])}{' '}
          <button type="button" onClick={() => run(() => patchMark(frame, other))}>
            {jobLabels.takeMark(markNames[other])}
          </button>
          {differs === null ? null : (
            <>
              {' '}
              <button type="button" onClick={() => run(() => patchMark(frame, said))}>
                {jobLabels.keepMark(markNames[said])}
              </button>
            </>
          )}
        </p>
      )}
      {words.length === 0 ? null : (
        <p>
          <small>{jobLabels.sidecarSays(sidecar?.name ?? '', words.join(' · '))}</small>
        </p>
      )}
    </>
  );
}
