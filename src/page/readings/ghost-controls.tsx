import { type ReactNode, useId } from 'react';
import { readingLabels } from '../../words/index.ts';
import { type GhostWay, ghostWays } from './laid.ts';
import { NoPlot } from './plot-figure.tsx';
import type { LaidSwitch } from './use-laid-choice.ts';
import type { ReferencePicture } from './use-reference.ts';

interface GhostControlsProps {
  readonly laid: LaidSwitch;
  readonly reference: ReferencePicture;
  readonly isReference: boolean;
}

const ways: Readonly<Record<GhostWay, { readonly name: string; readonly help: string }>> = {
  ghost: { name: readingLabels.ghost, help: readingLabels.ghostHelp },
  difference: { name: readingLabels.difference, help: readingLabels.differenceHelp },
};

/** How the reference is seen through the picture. */
export function GhostControls({ laid, reference, isReference }: GhostControlsProps): ReactNode {
  const slider = useId();
  const { choice, change } = laid;
  if (reference.state !== 'here') {
    const reason = {
      none: isReference ? readingLabels.isReference : readingLabels.noReference,
      loading: readingLabels.referenceLoads,
      failed: readingLabels.referenceFailed,
    }[reference.state];
    return <NoPlot title={readingLabels.reference} reason={reason} />;
  }
  return (
    <div className="plot" data-plot="ghost">
      <h3>{readingLabels.reference}</h3>
      <fieldset className="ghost-ways">
        <legend className="unseen">{readingLabels.reference}</legend>
        {ghostWays.map((way) => (
          <button
            key={way}
            type="button"
            aria-pressed={choice.ghost === way}
            onClick={() => change({ ghost: way, on: true })}
          >
            {ways[way].name}
          </button>
        ))}
      </fieldset>
      <label htmlFor={slider} className="ghost-opacity" data-off={choice.ghost === 'difference'}>
        {readingLabels.opacity}
        <input
          id={slider}
          type="range"
          min={0}
          max={100}
          step={5}
          disabled={choice.ghost === 'difference'}
          value={Math.round(choice.opacity * 100)}
          onChange={(event) => change({ opacity: Number(event.target.value) / 100, on: true })}
        />
      </label>
      <p>{ways[choice.ghost].help}</p>
    </div>
  );
}
