import { type ReactNode, useState } from 'react';
import { parameters } from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';
import type { Hand } from './hand.ts';
import { Knob } from './knob.tsx';
import { WheelFigure } from './wheel-figure.tsx';

/** As many as the schema takes. */
const bandsMax = 12;

export function HuesPanel({ hand }: { readonly hand: Hand }): ReactNode {
  const { bands } = hand.look;
  const [wanted, setWanted] = useState(0);
  const chosen = Math.min(wanted, bands.length - 1);
  const add = (): void => {
    const hueDeg = freeHue(bands.map((band) => band.hueDeg));
    const reachDeg = parameters['bands.reachDeg'].start;
    hand.change({ bands: [...bands, { hueDeg, reachDeg, lightness: 0, chroma: 0, turnDeg: 0 }] });
    setWanted(bands.length);
  };
  return (
    <>
      <WheelFigure hand={hand} chosen={chosen} onChoose={setWanted} />
      <div className="panel-side panel-knobs">
        {bands.length === 0 ? <p className="panel-said">{lookLabels.noBands}</p> : null}
        <Knob hand={hand} number={{ name: 'bands.hueDeg', at: chosen }} />
        <Knob hand={hand} number={{ name: 'bands.reachDeg', at: chosen }} />
        <Knob hand={hand} number={{ name: 'bands.chroma', at: chosen }} />
        <Knob hand={hand} number={{ name: 'bands.lightness', at: chosen }} />
        <Knob hand={hand} number={{ name: 'bands.turnDeg', at: chosen }} />
        <div className="panel-presses">
          <button type="button" className="press" disabled={bands.length >= bandsMax} onClick={add}>
            {lookLabels.addBand}
          </button>
          {bands.length === 0 ? null : (
            <button
              type="button"
              className="press"
              onClick={() => hand.change({ bands: bands.filter((_, index) => index !== chosen) })}
            >
              {lookLabels.removeBand}
            </button>
          )}
        </div>
      </div>
    </>
  );
}

/** The hue of OKLCh that is farthest from those taken, among the corners of sRGB. */
export function freeHue(taken: readonly number[]): number {
  const corners = [29, 70, 110, 142, 195, 264, 328];
  const away = (one: number, other: number): number => Math.abs(((one - other + 540) % 360) - 180);
  const nearest = (hue: number): number => Math.min(360, ...taken.map((each) => away(hue, each)));
  return corners.reduce((best, hue) => (nearest(hue) > nearest(best) ? hue : best));
}
