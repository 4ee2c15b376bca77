import { type KeyboardEvent, type MouseEvent, type ReactNode, useEffect, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { SharePoint } from '../../facts/index.ts';
import { remarkLabels } from '../../words/index.ts';
import { pictureAddress } from '../link/index.ts';
import { useSwipe } from '../pocket/use-swipe.ts';
import { placingOf } from '../readings/geometry/placing.ts';
import { Pins } from '../remarks/pins.tsx';
import type { SaidRemark } from '../remarks/said-remarks.ts';
import { arrowStep } from '../viewport/index.ts';

/** As wide as large screens are. */
const widthPx = 2560;
/** A finger or mouse that moved farther than this between down and up has not pointed, CSS px. */
const pointCssPx = 8;

interface PinnedPictureProps {
  readonly frame: Frame;
  readonly remarks: readonly SaidRemark[];
  readonly names: ReadonlyMap<string, string>;
  readonly chosen: string | null;
  readonly onChoose: (id: string) => void;
  /** Where a remark that is being written belongs, shares of the original; null for none. */
  readonly draft: SharePoint | null;
  readonly onPoint: (at: SharePoint) => void;
  readonly onStep: (by: -1 | 1) => void;
}

/** The picture as large as there is room, its pins on it; a touch says where the next remark belongs. */
export function PinnedPicture({
  frame,
  remarks,
  names,
  chosen,
  onChoose,
  draft,
  onPoint,
  onStep,
}: PinnedPictureProps): ReactNode {
  const area = useRef<HTMLDivElement>(null);
  const down = useRef<{ x: number; y: number } | null>(null);
  useSwipe(area, onStep);
  const { picture } = frame;
  if (picture.state !== 'rendered') return <div ref={area} className="pinned" />;
  const placing = placingOf(picture, picture);
  const toShown = (at: SharePoint): SharePoint => placing?.toShown(at) ?? at;
  const toOriginal = (at: SharePoint): SharePoint => inside(placing?.toOriginal(at) ?? at);
  const point = (event: MouseEvent): void => {
    const from = down.current;
    if (from !== null && Math.hypot(event.clientX - from.x, event.clientY - from.y) > pointCssPx) return;
    const box = event.currentTarget.getBoundingClientRect();
    onPoint(
      toOriginal({ x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height }),
    );
  };
  return (
    <div ref={area} className="pinned">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a short cut; the button beside it and the arrows do the same. */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: as above. */}
      <div
        className="pinned-box"
        style={{
          aspectRatio: `${picture.width} / ${picture.height}`,
          width: `min(100cqw, 100cqh * ${picture.width / picture.height})`,
        }}
        onPointerDown={({ clientX, clientY }) => {
          down.current = { x: clientX, y: clientY };
        }}
        onClick={point}
      >
        <img
          src={pictureAddress(frame.id, widthPx, picture.version)}
          width={picture.width}
          height={picture.height}
          alt={frame.name}
          draggable={false}
        />
        <Pins remarks={remarks} names={names} toShown={toShown} chosen={chosen} onChoose={onChoose} />
        {draft === null ? null : (
          <DraftPin at={toShown(draft)} onMove={(shown) => onPoint(toOriginal(shown))} />
        )}
      </div>
    </div>
  );
}

interface DraftPinProps {
  readonly at: SharePoint;
  readonly onMove: (shown: SharePoint) => void;
}

/** The mark of a remark that is being written; with the focus, the arrows move it. */
function DraftPin({ at, onMove }: DraftPinProps): ReactNode {
  const button = useRef<HTMLButtonElement>(null);
  // What it gives back is no clean-up: newer browsers give a promise.
  useEffect(() => {
    button.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  const press = (event: KeyboardEvent): void => {
    const [right, down] = arrowStep(event);
    if (right === 0 && down === 0) return;
    event.preventDefault();
    event.stopPropagation();
    onMove({ x: within(at.x + right), y: within(at.y + down) });
  };
  return (
    <button
      ref={button}
      type="button"
      className="pin pin-draft"
      aria-label={remarkLabels.point}
      style={{ left: `${at.x * 100}%`, top: `${at.y * 100}%` }}
      onKeyDown={press}
      onClick={(event) => event.stopPropagation()}
    >
      <span aria-hidden="true">+</span>
    </button>
  );
}

function within(share: number): number {
  return Math.min(1, Math.max(0, share));
}

function inside({ x, y }: SharePoint): SharePoint {
  return { x: within(x), y: within(y) };
}
