import { type ReactNode, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { type Finding, type Mark, marks } from '../../facts/index.ts';
import { jobLabels, markNames, pageLabels, sentence } from '../../words/index.ts';
import { screenColourSpace } from '../drawer/index.ts';
import {
  arrivalProgress,
  filesName,
  isArriving,
  momentOf,
  onTheWay,
  type PageState,
} from '../state/index.ts';
import { clockTime } from './clock.ts';
import { exposureLine } from './exposure-line.ts';
import { useFit } from './use-fit.ts';
import type { Presentation } from './use-presentation.ts';

interface CaptionProps {
  readonly presentation: Presentation | null;
  readonly state: PageState;
  readonly onMark: (mark: Mark) => void;
  /** Opens the card of the frame. */
  readonly onCard: () => void;
}

/** The words under the picture: which frame, when, how it was taken, and what it is that one sees. */
export function Caption({ presentation, state, onMark, onCard }: CaptionProps): ReactNode {
  if (presentation === null) return <div className="caption" />;
  return (
    <div className="caption paper">
      <CaptionWords presentation={presentation} coming={onTheWay(state)} />
      <Marks frame={presentation.frame} onMark={onMark} onCard={onCard} />
    </div>
  );
}

interface CaptionWordsProps {
  readonly presentation: Presentation;
  /** A newer frame that is on its way. */
  readonly coming: Frame | null;
}

/** One run of words that is set smaller where there are many, so that nothing is cut and the picture never moves. */
function CaptionWords({ presentation, coming }: CaptionWordsProps): ReactNode {
  const words = useRef<HTMLParagraphElement>(null);
  const { frame } = presentation;
  const name = filesName(frame);
  const exposure = exposureLine(frame.capture);
  const source = sourceFindings(presentation)
    .map((finding) => sentence(finding))
    .join(' ');
  useFit(words, [name, exposure, source, coming?.name].join(' '), '.caption', 1);
  return (
    <p className="caption-frame" ref={words}>
      <strong>{name}</strong>
      <span>{frame.camera}</span>
      <span>{clockTime(momentOf(frame))}</span>
      {exposure === '' ? null : <span>{exposure}</span>}
      <span data-testid="picture-source">{source}</span>
      {coming === null ? null : <em>{sentence({ code: 'page.on-its-way', args: { name: coming.name } })}</em>}
    </p>
  );
}

function Marks({
  frame,
  onMark,
  onCard,
}: Pick<CaptionProps, 'onMark' | 'onCard'> & { readonly frame: Frame }): ReactNode {
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
      <button type="button" onClick={onCard}>
        {jobLabels.more}
      </button>
    </fieldset>
  );
}

/** What it is that one sees, and in which colours. */
function sourceFindings({ frame, picture }: Presentation): readonly Finding[] {
  if (picture === null) return [];
  const space = { code: 'page.colour-space', args: { space: colourSpaceNames[screenColourSpace()] } };
  return [sourceFinding(frame), space];
}

const colourSpaceNames: Readonly<Record<PredefinedColorSpace, string>> = {
  srgb: 'sRGB',
  'display-p3': 'Display P3',
};

function sourceFinding(frame: Frame): Finding {
  const { kind, look, picture } = frame;
  if (picture.state === 'first-view') return previewFinding(frame);
  if (picture.state !== 'rendered') return { code: 'page.preview-only', args: {} };
  if (picture.source === 'raw' && picture.target !== null)
    return { code: 'page.rendered-on-target', args: { name: picture.target.name } };
  if (picture.source === 'raw') return { code: 'page.rendered-raw', args: {} };
  if (kind !== 'jpeg') return { code: 'page.rendered-raster', args: {} };
  // Somebody chose a look and waits to see it.
  if (look.id !== null) return { code: 'page.rendered-jpeg-only', args: { look: look.name } };
  return { code: 'page.rendered-jpeg', args: {} };
}

/** What has arrived by now, not what had when the preview was cut out: that is often its first hundredth. */
function previewFinding(frame: Frame): Finding {
  const percent = Math.floor((arrivalProgress(frame).share ?? 0) * 100);
  if (isArriving(frame)) return { code: 'page.first-view', args: { percent } };
  const brokeOff = frame.files.some(({ state }) => state === 'broken-off');
  return brokeOff
    ? { code: 'page.first-view-broken-off', args: { percent } }
    : { code: 'page.first-view-whole', args: {} };
}
