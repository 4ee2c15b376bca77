import { type PointerEvent, type ReactNode, useLayoutEffect, useRef } from 'react';
import { pageLabels } from '../../words/index.ts';
import { canvasDrawer, type DrawnPicture } from '../drawer/index.ts';
import { fitBox, type SizeCssPx, seenPart } from '../viewport/index.ts';
import { useView, type Zoom } from './use-zoom.ts';

interface OverviewProps {
  readonly zoom: Zoom;
  readonly free: SizeCssPx;
  readonly picture: DrawnPicture;
}

/** The space it may take: a stamp in the corner, CSS pixels, and never more than this share of what is looked at. */
const stampCssPx = { widthCssPx: 168, heightCssPx: 132 };
const stampShare = 0.3;
const finePx = 2;

/** All of the picture, small, with a frame round what is seen of it now. Not there while all of it is seen. */
export function Overview({ zoom: { motion }, free, picture }: OverviewProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const view = useView(motion);
  const magnified = view !== null;
  const widthCssPx = Math.min(stampCssPx.widthCssPx, free.widthCssPx * stampShare);
  const heightCssPx = Math.min(stampCssPx.heightCssPx, free.heightCssPx * stampShare);
  useLayoutEffect(() => {
    if (canvas.current === null || !magnified) return;
    canvasDrawer(canvas.current).draw(picture, fitBox(picture.full, { widthCssPx, heightCssPx }, finePx));
  }, [magnified, picture, widthCssPx, heightCssPx]);

  const { stage } = motion;
  if (view === null || stage === null) return null;
  const box = fitBox(picture.full, { widthCssPx, heightCssPx }, 1);
  const part = seenPart(view, stage);
  const across = box.widthCssPx / picture.full.widthPx;
  const down = box.heightCssPx / picture.full.heightPx;

  const look = (event: PointerEvent<HTMLElement>): void => {
    if (event.type === 'pointermove' && event.buttons === 0) return;
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    const { left, top } = event.currentTarget.getBoundingClientRect();
    // Inside the border.
    const centreX = (event.clientX - left - event.currentTarget.clientLeft) / box.widthCssPx;
    const centreY = (event.clientY - top - event.currentTarget.clientTop) / box.heightCssPx;
    motion.jumpTo({ scale: motion.target?.scale ?? view.scale, centreX, centreY });
  };

  return (
    <div
      className="overview"
      data-testid="overview"
      role="img"
      aria-label={pageLabels.overview}
      style={{ width: box.widthCssPx, height: box.heightCssPx }}
      onPointerDown={look}
      onPointerMove={look}
    >
      <canvas ref={canvas} />
      <span
        className="overview-part"
        style={{
          left: part.leftPx * across,
          top: part.topPx * down,
          width: (part.rightPx - part.leftPx) * across,
          height: (part.bottomPx - part.topPx) * down,
        }}
      />
    </div>
  );
}
