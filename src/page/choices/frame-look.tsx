import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { lookInForcePhrase, lookLabels } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import { lookAddress } from '../look/subject.ts';
import type { Call } from './use-call.ts';

interface FrameLookProps {
  readonly frame: Frame;
  readonly run: Call['run'];
}

/** What a frame is shown with, by name and version, and whose choice that is. */
export function FrameLook({ frame, run }: FrameLookProps): ReactNode {
  const { look, picture } = frame;
  const isFinished = picture.state === 'rendered' && picture.source === 'raster';
  const isLate = picture.state === 'rendered' && !isFinished && picture.look !== look.hash;
  return (
    <div className="choice">
      <span>{lookLabels.inForce}</span>
      <div className="look-in-force">
        <p>{isFinished ? lookLabels.notOnThis : lookInForcePhrase(look)}</p>
        {isLate ? <p className="aside">{lookLabels.renderedSoon}</p> : null}
        <p className="acts">
          <a href={lookAddress({ frame: frame.id })}>{lookLabels.toLook}</a>
          {look.own === null ? null : (
            <button type="button" onClick={() => run(() => patchFrame(frame.id, { look: null }))}>
              {lookLabels.ownTakenBack}
            </button>
          )}
        </p>
      </div>
    </div>
  );
}
