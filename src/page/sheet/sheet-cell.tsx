import { memo, type ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { contactLabels, markNames, standingNames } from '../../words/index.ts';
import { pictureAddress } from '../link/index.ts';
import { clockTime } from '../set/clock.ts';
import { SmallPicture } from '../set/small-picture.tsx';
import { momentOf } from '../state/index.ts';
import type { SheetPart, SheetSpot } from '../viewport/index.ts';
import { standingOf } from './state/sheet-filter.ts';

/** Asked for at these widths, pixels: few, so that the station makes each once and the browser keeps it. */
const smallWidthPx = 256;
const largeWidthPx = 640;

interface SheetCellProps {
  readonly frame: Frame;
  readonly part: SheetPart;
  readonly spot: SheetSpot;
  readonly inHand: boolean;
  /** The keys are here: the one stop of Tab among all frames. */
  readonly stop: boolean;
  /** The picture is drawn; else its place is kept for it. */
  readonly shown: boolean;
}

/**
 * One frame on the sheet: its picture, its verdict's shape, its number; what is chosen is drawn about the picture as with a
 * wax pencil on paper, and said below it. What is done with it, the field hears.
 */
export const SheetCell = memo(function SheetCell({
  frame,
  part,
  spot,
  inHand,
  stop,
  shown,
}: SheetCellProps): ReactNode {
  const { mark, suggestedMark } = frame;
  const remarks = openRemarks(frame);
  const standing = standingOf(frame);
  return (
    <button
      type="button"
      className="sheet-cell"
      data-frame-id={frame.id}
      data-part={part}
      data-mark={mark}
      data-hand={inHand}
      aria-pressed={inHand}
      tabIndex={stop ? 0 : -1}
      aria-label={labelOf(frame)}
      style={{ left: spot.left, top: spot.top, width: spot.width, height: spot.height }}
    >
      <span className="sheet-picture">
        {shown ? <CellPicture frame={frame} large={part === 'hero'} /> : null}
      </span>
      <span className="sheet-words" aria-hidden="true">
        <span className="cell-shape" data-judgement={standing} />
        <span className="sheet-name">{shortOf(frame)}</span>
        {mark === 'none' ? null : <span className="sheet-mark">{markNames[mark]}</span>}
        {mark !== 'none' || suggestedMark === null ? null : (
          <span className="sheet-mark sheet-suggested">{markNames[suggestedMark]}?</span>
        )}
        {remarks === 0 ? null : <span className="sheet-pins">{remarks}</span>}
      </span>
    </button>
  );
}, isAlike);

function isAlike(one: SheetCellProps, other: SheetCellProps): boolean {
  return (
    one.frame === other.frame &&
    one.part === other.part &&
    one.inHand === other.inHand &&
    one.stop === other.stop &&
    one.shown === other.shown &&
    one.spot.left === other.spot.left &&
    one.spot.top === other.spot.top &&
    one.spot.width === other.spot.width
  );
}

/** A finished picture comes by the browser's own way, which forgets it when it is scrolled by; what is arriving is drawn. */
function CellPicture({ frame, large }: { readonly frame: Frame; readonly large: boolean }): ReactNode {
  const { picture } = frame;
  if (picture.state === 'none') return null;
  if (picture.state !== 'rendered') return <SmallPicture frame={frame} />;
  const width = large ? largeWidthPx : smallWidthPx;
  return (
    <img
      src={pictureAddress(frame.id, width, picture.version)}
      width={picture.width}
      height={picture.height}
      alt=""
      decoding="async"
      draggable={false}
    />
  );
}

/** The counter where there is one, which is what people call out; else the name. */
function shortOf({ counter, name }: Frame): string {
  return counter === null ? name : String(counter).padStart(4, '0');
}

/** Those that nobody has settled. */
function openRemarks({ remarks }: Frame): number {
  return remarks.filter(({ settled }) => settled === null).length;
}

/** All that the cell says, for who hears it. */
function labelOf(frame: Frame): string {
  const parts = [frame.name, standingNames[standingOf(frame)], clockTime(momentOf(frame))];
  if (frame.mark !== 'none') parts.push(markNames[frame.mark]);
  else if (frame.suggestedMark !== null) parts.push(contactLabels.suggested(markNames[frame.suggestedMark]));
  const remarks = openRemarks(frame);
  if (remarks > 0) parts.push(contactLabels.remarks(remarks));
  return parts.join(', ');
}
