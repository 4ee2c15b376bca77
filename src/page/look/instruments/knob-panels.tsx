import type { ReactNode } from 'react';
import { bandsMax, type ParameterName } from '../../../look/index.ts';
import { bandPhrase, lookLabels, parameterWords } from '../../../words/index.ts';
import { freeHue } from './free-hue.ts';
import type { Hand } from './hand.ts';
import { Knob } from './knob.tsx';

interface PanelProps {
  readonly hand: Hand;
}

function Knobs({ hand, names }: PanelProps & { readonly names: readonly ParameterName[] }): ReactNode {
  return names.map((name) => <Knob key={name} hand={hand} number={{ name }} />);
}

export function ExposurePanel({ hand }: PanelProps): ReactNode {
  return (
    <div className="panel-side panel-knobs">
      <Knobs hand={hand} names={['exposureEv', 'flare', 'falloffEv']} />
    </div>
  );
}

export function DetailPanel({ hand }: PanelProps): ReactNode {
  return (
    <>
      <fieldset className="panel-group">
        <legend>{lookLabels.smoothing}</legend>
        <Knobs hand={hand} names={['smoothing.luma', 'smoothing.chroma']} />
      </fieldset>
      <fieldset className="panel-group panel-group-wide">
        <legend>{lookLabels.acutance}</legend>
        <Knobs hand={hand} names={['acutance.strength', 'acutance.widthPx', 'acutance.gate']} />
      </fieldset>
    </>
  );
}

export function GrainPanel({ hand }: PanelProps): ReactNode {
  return (
    <div className="panel-side panel-knobs">
      <Knobs hand={hand} names={['grain.density', 'grain.sizePx']} />
    </div>
  );
}

export function TintPanel({ hand }: PanelProps): ReactNode {
  return (
    <div className="panel-side panel-knobs">
      <Knobs
        hand={hand}
        names={[
          'tint.darkHueDeg',
          'tint.darkChroma',
          'tint.lightHueDeg',
          'tint.lightChroma',
          'tint.crossing',
        ]}
      />
    </div>
  );
}

const channels = [lookLabels.red, lookLabels.green, lookLabels.blue] as const;

export function ChannelsPanel({ hand }: PanelProps): ReactNode {
  return (
    <>
      {(['cdl.slope', 'cdl.offset', 'cdl.power'] as const).map((name) => (
        <fieldset className="panel-group" key={name}>
          <legend>{parameterWords[name]?.name}</legend>
          {channels.map((channel, at) => (
            <Knob key={channel} hand={hand} number={{ name, at }} name={channel} />
          ))}
        </fieldset>
      ))}
      <fieldset className="panel-group">
        <legend>{parameterWords['cdl.saturation']?.name}</legend>
        <Knobs hand={hand} names={['cdl.saturation']} />
      </fieldset>
    </>
  );
}

/** Filters before black-and-white: bands of hue that become lighter or darker greys. */
export function MonochromePanel({ hand }: PanelProps): ReactNode {
  const { monochrome } = hand.look;
  const { bands } = monochrome;
  return (
    <>
      <div className="panel-group">
        <Knobs hand={hand} names={['monochrome.amount']} />
        <div className="panel-presses">
          <button
            type="button"
            className="press"
            disabled={bands.length >= bandsMax}
            onClick={() => {
              const hueDeg = freeHue(bands.map((band) => band.hueDeg));
              hand.change({
                monochrome: { ...monochrome, bands: [...bands, { hueDeg, reachDeg: 90, ev: 0 }] },
              });
            }}
          >
            {lookLabels.addBand}
          </button>
        </div>
      </div>
      {bands.map(({ hueDeg }, at) => (
        // A band has no name but its place.
        // biome-ignore lint/suspicious/noArrayIndexKey: the place is the name
        <fieldset className="panel-group" key={at}>
          <legend>{bandPhrase(at + 1, hueDeg)}</legend>
          <Knob hand={hand} number={{ name: 'monochrome.bands.hueDeg', at }} />
          <Knob hand={hand} number={{ name: 'monochrome.bands.ev', at }} />
          <Knob hand={hand} number={{ name: 'monochrome.bands.reachDeg', at }} />
          <button
            type="button"
            className="press"
            onClick={() =>
              hand.change({
                monochrome: { ...monochrome, bands: bands.filter((_each, index) => index !== at) },
              })
            }
          >
            {lookLabels.removeBand}
          </button>
        </fieldset>
      ))}
    </>
  );
}
