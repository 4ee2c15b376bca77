import type { ReactNode } from 'react';
import { curveSchema, parameters } from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';
import { CurveFigure } from './curve-figure.tsx';
import type { Hand } from './hand.ts';
import { Knob } from './knob.tsx';

const startCurve = curveSchema.parse({
  pivot: parameters['curve.pivot'].start,
  gamma: parameters['curve.gamma'].start,
  toeEv: parameters['curve.toeEv'].start,
  shoulder: parameters['curve.shoulder'].start,
  whiteEv: parameters['curve.whiteEv'].start,
});

export function CurvePanel({ hand }: { readonly hand: Hand }): ReactNode {
  const { curve } = hand.look;
  if (curve === null) {
    return (
      <div className="panel-side">
        <p className="panel-said">{lookLabels.noCurve}</p>
        <button type="button" className="press" onClick={() => hand.change({ curve: startCurve })}>
          {lookLabels.add}
        </button>
      </div>
    );
  }
  const hasBlack = curve.densityRange !== null;
  const { start } = parameters['curve.densityRange'];
  return (
    <>
      <CurveFigure hand={hand} curve={curve} />
      <div className="panel-side panel-knobs">
        <Knob hand={hand} number={{ name: 'curve.gamma' }} />
        <Knob hand={hand} number={{ name: 'curve.toeEv' }} />
        <Knob hand={hand} number={{ name: 'curve.shoulder' }} />
        <Knob hand={hand} number={{ name: 'curve.whiteEv' }} />
        <Knob hand={hand} number={{ name: 'curve.pivot' }} />
        <Knob hand={hand} number={{ name: 'curve.densityRange' }} />
        <div className="panel-presses">
          <button
            type="button"
            className="press"
            onClick={() => hand.change({ curve: { ...curve, densityRange: hasBlack ? null : start } })}
          >
            {hasBlack ? lookLabels.blackLeft : lookLabels.blackGiven}
          </button>
          <button type="button" className="press" onClick={() => hand.change({ curve: null })}>
            {lookLabels.leaveOut}
          </button>
        </div>
      </div>
    </>
  );
}
