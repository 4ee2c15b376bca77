import { type ReactNode, type RefObject, useLayoutEffect, useRef } from 'react';
import { flushSync } from 'react-dom';
import { kindName, sentence, sizePhrase } from '../../words/index.ts';
import { noPictureCode } from '../state/index.ts';
import { fitBox, type SizeCssPx } from '../viewport/index.ts';
import { Overview } from './overview.tsx';
import { type Painted, PicturePainter } from './picture-painter.ts';
import { useDevicePixelRatio } from './use-media.ts';
import type { Presentation } from './use-presentation.ts';
import { useHand, type Zoom } from './use-zoom.ts';
import { ZoomControls } from './zoom-controls.tsx';
import '../style/picture.css';

interface PictureAreaProps {
  readonly presentation: Presentation | null;
  readonly free: SizeCssPx | null;
  readonly onFree: (free: SizeCssPx) => void;
  readonly zoom: Zoom;
  readonly children: ReactNode;
}

/**
 * The free space and the picture in it. While all of it is seen the canvas is the picture's box and nothing else: round
 * it lies surround. Looked at closely it fills the free space.
 */
export function PictureArea({ presentation, free, onFree, zoom, children }: PictureAreaProps): ReactNode {
  const area = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const devicePixelRatio = useDevicePixelRatio();
  const picture = presentation?.picture ?? null;
  const box = picture === null || free === null ? null : fitBox(picture.full, free, devicePixelRatio);
  usePainter(canvas, zoom, paintedOf(presentation, free, devicePixelRatio));
  useHand(area, zoom.motion);
  useLayoutEffect(() => watchSize(area.current, onFree), [onFree]);

  return (
    <div className="picture-area" ref={area}>
      <canvas
        ref={canvas}
        className="picture"
        data-testid="picture"
        data-frame-id={presentation?.frame.id ?? ''}
        data-state={presentation === null ? 'none' : stateOnCanvas(presentation)}
        data-version={presentation === null ? '' : pictureVersion(presentation)}
        data-box={
          box === null ? '' : [box.leftCssPx, box.topCssPx, box.widthCssPx, box.heightCssPx].join(',')
        }
        hidden={box === null}
        role="img"
        aria-label={presentation?.frame.name ?? ''}
      />
      {presentation !== null && picture === null ? <NoPicture presentation={presentation} /> : null}
      {picture === null || free === null ? null : (
        <div className="closely">
          <Overview zoom={zoom} free={free} picture={picture} />
          <ZoomControls zoom={zoom} />
        </div>
      )}
      {children}
    </div>
  );
}

/** Draws after every change of the page, before it is painted; the motion draws by itself. */
function usePainter(
  canvas: RefObject<HTMLCanvasElement | null>,
  { motion }: Zoom,
  painted: Painted | null,
): void {
  const painter = useRef<PicturePainter | null>(null);
  useLayoutEffect(() => {
    if (canvas.current === null) return;
    const own = new PicturePainter(canvas.current, motion);
    painter.current = own;
    const forget = motion.subscribe(() => own.paint());
    return () => {
      forget();
      own.close();
      painter.current = null;
    };
  }, [canvas, motion]);
  useLayoutEffect(() => painter.current?.show(painted));
}

function paintedOf(
  presentation: Presentation | null,
  free: SizeCssPx | null,
  devicePixelRatio: number,
): Painted | null {
  if (presentation?.picture == null || free === null) return null;
  const { frame, picture } = presentation;
  const version =
    frame.picture.state === 'rendered' && picture.kind === 'rendered' ? frame.picture.version : null;
  return { frameId: frame.id, picture, version, free, devicePixelRatio };
}

function NoPicture({ presentation }: { readonly presentation: Presentation }): ReactNode {
  const { frame, waiting } = presentation;
  const code = noPictureCode(frame, waiting);
  if (frame.picture.state === 'rendered' && !waiting) return null;
  return (
    <div className="no-picture paper">
      <p className="no-picture-name">{frame.name}</p>
      <p>
        {frame.picture.state === 'cannot'
          ? `${kindName(frame.kind)}, ${sizePhrase(bytesOf(frame))}`
          : sentence({ code, args: {} })}
      </p>
    </div>
  );
}

/** What a file that cannot be shown is; why it cannot stands in the sentence. */
function bytesOf({ files }: Presentation['frame']): number {
  return files.reduce((total, file) => total + file.size, 0);
}

/** What is on the canvas at this moment, not what is on its way to it. */
function stateOnCanvas({ frame, picture }: Presentation): string {
  if (picture !== null) return picture.kind;
  return frame.picture.state === 'cannot' && !frame.picture.preview ? 'cannot' : 'none';
}

function pictureVersion({ frame }: Presentation): number | string {
  return frame.picture.state === 'none' ? '' : frame.picture.version;
}

/**
 * Tells the size of an element now and whenever it changes. The observer is heard after layout and before paint;
 * rendering at once keeps canvas and page of one size in every frame that is painted.
 */
function watchSize(element: HTMLElement | null, tell: (size: SizeCssPx) => void): () => void {
  if (element === null) return () => undefined;
  const observer = new ResizeObserver(([entry]) => {
    if (entry === undefined) return;
    const { width, height } = entry.contentRect;
    flushSync(() => tell({ widthCssPx: width, heightCssPx: height }));
  });
  observer.observe(element);
  return () => observer.disconnect();
}
