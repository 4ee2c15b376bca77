import { type ReactNode, useState } from 'react';
import type { Frame, SharpReadings } from '../../contract/index.ts';
import { readingLabels } from '../../words/index.ts';
import { useCall } from '../choices/use-call.ts';
import { patchFrame } from '../link/index.ts';
import { isPlaceUntold } from './is-place-untold.ts';

export interface Picking {
  /** The next click on the picture points the spot out. */
  readonly on: boolean;
  readonly set: (on: boolean) => void;
  /** Also for the frames behind it. */
  readonly onward: boolean;
  readonly setOnward: (onward: boolean) => void;
}

export function usePicking(): Picking {
  const [on, set] = useState(false);
  const [onward, setOnward] = useState(true);
  return { on, set, onward, setOnward };
}

interface SpotControlsProps {
  readonly frame: Frame;
  readonly spot: SharpReadings['spot'];
  readonly picking: Picking;
}

/** Who said where it has to be sharp, and how to say it. */
export function SpotControls({ frame, spot, picking }: SpotControlsProps): ReactNode {
  const { run, refusal } = useCall();
  return (
    <div className="plot" data-plot="spot">
      <h3>{readingLabels.spot}</h3>
      <p>{saidBy(frame, spot)}</p>
      <div className="spot-acts">
        <button
          type="button"
          aria-pressed={picking.on}
          disabled={isPlaceUntold(frame)}
          onClick={() => picking.set(!picking.on)}
        >
          {picking.on ? readingLabels.pointingOut : readingLabels.pointOut}
        </button>
        {frame.spot === null ? null : (
          <button type="button" onClick={() => run(() => patchFrame(frame.id, { spot: null }))}>
            {readingLabels.takeBack}
          </button>
        )}
      </div>
      {frame.shot === null ? null : (
        <label className="spot-onward">
          <input
            type="checkbox"
            checked={picking.onward}
            onChange={(event) => picking.setOnward(event.target.checked)}
          />
          {readingLabels.onward}
        </label>
      )}
      <p role="status">{refusal}</p>
    </div>
  );
}

function saidBy(frame: Frame, spot: SharpReadings['spot']): string {
  if (frame.spot !== null) return frame.spot.onward ? readingLabels.spotOnward : readingLabels.spotOnFrame;
  if (spot?.teller === 'given') return readingLabels.spotEarlier;
  return spot?.teller === 'camera' ? readingLabels.spotByCamera : readingLabels.spotNotKnown;
}
