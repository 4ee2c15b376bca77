import type { ReactNode } from 'react';
import type { Frame } from '../../../contract/index.ts';
import type { RgbHalf } from '../../../image/index.ts';
import type { Look, LookProfile } from '../../../look/index.ts';
import { lookLabels, patchesPhrase } from '../../../words/index.ts';
import { useCall } from '../../choices/use-call.ts';
import { patchFrame } from '../../link/index.ts';
import { useReadings } from '../../readings/use-readings.ts';
import { patchErrors } from './patch-errors.ts';

interface TargetPanelProps {
  readonly frame: Frame;
  readonly scene: RgbHalf | null;
  readonly look: Look;
  readonly profile: LookProfile;
}

const cell = 40;
const row = 52;

/** The look held against the 24-patch target of the frame, each patch with its error. */
export function TargetPanel({ frame, scene, look, profile }: TargetPanelProps): ReactNode {
  const { readings } = useReadings(frame, true);
  const target = readings?.target ?? null;
  if (target === null || scene === null) return <NoTarget frame={frame} />;
  const patches = patchErrors(scene, target, look, profile);
  const [first] = patches;
  if (first === undefined) return <NoTarget frame={frame} />;
  const mean = patches.reduce((sum, { deltaE00 }) => sum + deltaE00, 0) / patches.length;
  const worst = patches.reduce((most, each) => (each.deltaE00 > most.deltaE00 ? each : most), first);
  return (
    <>
      <svg className="drawn target-figure" viewBox={`0 0 ${cell * 6} ${row * 4}`}>
        <title>{patchesPhrase(mean, worst.deltaE00, worst.patch)}</title>
        {patches.map(({ patch, published, shown, deltaE00 }) => (
          <g
            key={patch}
            data-patch={patch}
            transform={`translate(${((patch - 1) % 6) * cell} ${Math.floor((patch - 1) / 6) * row})`}
          >
            <rect x="1" y="1" width={cell / 2 - 1} height={cell - 2} fill={published} />
            <rect x={cell / 2} y="1" width={cell / 2 - 1} height={cell - 2} fill={shown} />
            <text className="axis-figure" x={cell / 2} y={row - 2}>
              {deltaE00.toFixed(1)}
            </text>
          </g>
        ))}
      </svg>
      <div className="panel-side">
        <p className="panel-said">{patchesPhrase(mean, worst.deltaE00, worst.patch)}</p>
        <p className="panel-hint">{lookLabels.targetHint}</p>
        <p className="panel-hint">{lookLabels.targetIntent}</p>
      </div>
    </>
  );
}

/** A target is looked for in frames that were taken as one; this can be said here too. */
function NoTarget({ frame }: { readonly frame: Frame }): ReactNode {
  const { refusal, run } = useCall();
  if (frame.purpose === 'target') return <p className="panel-said">{lookLabels.targetUnread}</p>;
  return (
    <div className="panel-side">
      <p className="panel-said">{lookLabels.noTarget}</p>
      <div className="panel-presses">
        <button
          type="button"
          className="press"
          onClick={() => run(() => patchFrame(frame.id, { purpose: 'target' }))}
        >
          {lookLabels.takeAsTarget}
        </button>
      </div>
      <p role="status" className="panel-hint">
        {refusal}
      </p>
    </div>
  );
}
