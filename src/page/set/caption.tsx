import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { type Finding, type Mark, marks } from '../../facts/index.ts';
import { markNames, pageLabels, sentence } from '../../words/index.ts';
import { screenColourSpace } from '../drawer/index.ts';
import {
  arrivalProgress,
  clockIsOff,
  instantMs,
  momentOf,
  onTheWay,
  type PageState,
} from '../state/index.ts';
import { clockTime, dayAndTime } from './clock.ts';
import { exposureLine } from './exposure-line.ts';
import type { Presentation } from './use-presentation.ts';

interface CaptionProps {
  readonly presentation: Presentation | null;
  readonly state: PageState;
  readonly onMark: (mark: Mark) => void;
}

/** The line under the picture: which frame, when, how it was taken, and what it is that one sees. */
export function Caption({ presentation, state, onMark }: CaptionProps): ReactNode {
  if (presentation === null) return <div className="caption" />;
  const { frame } = presentation;
  const coming = onTheWay(state);
  const { source, rest } = sourceFindings(presentation);
  return (
    <div className="caption paper">
      <p className="caption-frame">
        <strong>{frame.name}</strong>
        <span className="caption-camera">{frame.camera}</span>
        <span>{clockTime(momentOf(frame))}</span>
        <span className="caption-exposure">{exposureLine(frame.capture)}</span>
      </p>
      <p className="caption-source" data-testid="picture-source">
        {source === null ? null : sentence(source)}
        {coming === null ? null : (
          <em> {sentence({ code: 'page.on-its-way', args: { name: coming.name } })}</em>
        )}
        {rest.map((finding) => ` ${sentence(finding)}`).join('')}
      </p>
      <Marks frame={frame} onMark={onMark} />
    </div>
  );
}

function Marks({
  frame,
  onMark,
}: {
  readonly frame: Frame;
  readonly onMark: (mark: Mark) => void;
}): ReactNode {
  return (
    <fieldset className="marks">
      <legend className="unseen">{pageLabels.mark}</legend>
      {marks
        .filter((mark) => mark !== 'none')
        .map((mark) => (
          <button key={mark} type="button" aria-pressed={frame.mark === mark} onClick={() => onMark(mark)}>
            {markNames[mark]}
          </button>
        ))}
    </fieldset>
  );
}

/** What it is that one sees; the colour space last, where there is room for it. */
function sourceFindings({ frame, picture }: Presentation): {
  source: Finding | null;
  rest: readonly Finding[];
} {
  const clock = clockIsOff(frame) ? [clockFinding(frame)] : [];
  if (picture === null) return { source: null, rest: clock };
  const space = { code: 'page.colour-space', args: { space: colourSpaceNames[screenColourSpace()] } };
  return { source: sourceFinding(frame), rest: [...clock, space] };
}

const colourSpaceNames: Readonly<Record<PredefinedColorSpace, string>> = {
  srgb: 'sRGB',
  'display-p3': 'Display P3',
};

function sourceFinding(frame: Frame): Finding {
  const { kind, picture } = frame;
  if (picture.state === 'first-view') {
    // What has arrived by now, not what had when the preview was cut out: that is often its first hundredth.
    const share = arrivalProgress(frame).share ?? picture.arrivedShare ?? 0;
    const percent = Math.floor(share * 100);
    const arrives = frame.files.some(({ state }) => state === 'arriving');
    return percent > 0 || arrives
      ? { code: 'page.first-view', args: { percent } }
      : { code: 'page.preview-only', args: {} };
  }
  if (picture.state !== 'rendered') return { code: 'page.preview-only', args: {} };
  if (picture.source === 'raw') return { code: 'page.rendered-raw', args: {} };
  return { code: kind === 'jpeg' ? 'page.rendered-jpeg' : 'page.rendered-raster', args: {} };
}

/** Only a shutter after the arrival accuses a clock; one long before it may be a card brought from elsewhere. */
function clockFinding(frame: Frame): Finding {
  const shutterMs = instantMs(frame.times.shutter) ?? 0;
  const arrivedMs = instantMs(frame.times.firstByte) ?? 0;
  const args = { shutter: dayAndTime(shutterMs), arrived: dayAndTime(arrivedMs) };
  return { code: shutterMs > arrivedMs ? 'page.camera-clock' : 'page.came-late', args };
}
