import type { ReactNode } from 'react';
import type { Size } from '../../../image/index.ts';
import { placeOf } from '../../../look/index.ts';
import { lookLabels, sentence } from '../../../words/index.ts';
import type { Tool } from '../stage/tool.ts';
import type { Hand } from './hand.ts';
import { Knob } from './knob.tsx';

interface GeometryPanelProps {
  readonly hand: Hand;
  /** The whole upright original; null while there is no picture. */
  readonly full: Size | null;
  readonly tool: Tool | null;
  readonly onTool: (tool: Tool | null) => void;
}

const flips = {
  none: lookLabels.flipNone,
  'left-right': lookLabels.flipLeftRight,
  'top-bottom': lookLabels.flipTopBottom,
} as const;

/** Ratios of paper and of prints; any other is typed. */
const ratios = [
  [1, 1],
  [5, 4],
  [4, 3],
  [3, 2],
  [16, 9],
] as const;

export function GeometryPanel({ hand, full, tool, onTool }: GeometryPanelProps): ReactNode {
  const drawing = tool === 'lines';
  const cropping = tool === 'crop';
  const { geometry } = hand.look;
  const { crop } = geometry;
  const put = (parts: Partial<typeof geometry>): void => hand.change({ geometry: { ...geometry, ...parts } });
  const findings = full === null ? [] : placeOf(geometry, full.widthPx, full.heightPx).findings;
  return (
    <>
      <div className="panel-group">
        <Knob hand={hand} number={{ name: 'geometry.straightenDeg' }} />
        {drawing ? (
          <p className="panel-hint">{lookLabels.drawingLines}</p>
        ) : (
          <fieldset className="panel-choice">
            <legend>{lookLabels.flip}</legend>
            {(['none', 'left-right', 'top-bottom'] as const).map((flip) => (
              <button
                key={flip}
                type="button"
                className="press"
                aria-pressed={geometry.flip === flip}
                onClick={() => put({ flip })}
              >
                {flips[flip]}
              </button>
            ))}
          </fieldset>
        )}
        <div className="panel-presses">
          <button
            type="button"
            className="press"
            aria-pressed={drawing}
            onClick={() => onTool(drawing ? null : 'lines')}
          >
            {lookLabels.drawLines}
          </button>
          {geometry.lines === null ? null : (
            <button type="button" className="press" onClick={() => put({ lines: null })}>
              {lookLabels.removeLines}
            </button>
          )}
        </div>
        {findings.map((finding) => (
          <p key={finding.code} className="panel-hint" role="status">
            {sentence(finding)}
          </p>
        ))}
      </div>
      <fieldset className="panel-group panel-group-wide">
        <legend>{lookLabels.crop}</legend>
        <div className="panel-presses">
          <button
            type="button"
            className="press"
            aria-pressed={crop === null}
            onClick={() => {
              if (cropping) onTool(null);
              put({ crop: null });
            }}
          >
            {lookLabels.noCrop}
          </button>
          {ratios.map(([across, down]) => (
            <button
              key={`${across}:${down}`}
              type="button"
              className="press"
              aria-pressed={crop?.across === across && crop.down === down}
              onClick={() => put({ crop: { size: 1, centreX: 0.5, centreY: 0.5, ...crop, across, down } })}
            >
              {across}:{down}
            </button>
          ))}
          {crop === null ? null : (
            <button
              type="button"
              className="press"
              onClick={() => put({ crop: { ...crop, across: crop.down, down: crop.across } })}
            >
              {lookLabels.turnCrop}
            </button>
          )}
          {crop === null ? null : (
            <button
              type="button"
              className="press"
              aria-pressed={cropping}
              onClick={() => onTool(cropping ? null : 'crop')}
            >
              {lookLabels.cropOnPicture}
            </button>
          )}
        </div>
        {cropping ? <p className="panel-hint">{lookLabels.croppingHere}</p> : null}
        <div className="panel-knobs">
          <Knob hand={hand} number={{ name: 'geometry.crop.across' }} />
          <Knob hand={hand} number={{ name: 'geometry.crop.down' }} />
          <Knob hand={hand} number={{ name: 'geometry.crop.size' }} />
          <Knob hand={hand} number={{ name: 'geometry.crop.centreX' }} />
          <Knob hand={hand} number={{ name: 'geometry.crop.centreY' }} />
        </div>
      </fieldset>
    </>
  );
}
