import { type ReactNode, useState } from 'react';
import { bandsMax, parameters } from '../../../look/index.ts';
import { bandPhrase, lookLabels } from '../../../words/index.ts';
import { freeHue } from './free-hue.ts';
import type { Hand } from './hand.ts';
import { Knob } from './knob.tsx';
import { WheelFigure } from './wheel-figure.tsx';

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
        {bands.length < 2 ? null : (
          <fieldset className="panel-choice band-list">
            <legend className="unseen">{lookLabels.chosenBand}</legend>
            {bands.map((band, index) => (
              <button
                // biome-ignore lint/suspicious/noArrayIndexKey: a band has no name but its place
                key={index}
                type="button"
                className="press"
                aria-pressed={index === chosen}
                aria-label={bandPhrase(index + 1, band.hueDeg)}
                onClick={() => setWanted(index)}
              >
                {index + 1}
              </button>
            ))}
          </fieldset>
        )}
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
