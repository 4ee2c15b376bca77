import { type ReactNode, useLayoutEffect, useRef } from 'react';
import { flushSync } from 'react-dom';
import { sentence, sizePhrase } from '../../words/index.ts';
import { canvasDrawer, type PictureDrawer } from '../drawer/index.ts';
import { fitBox, type PictureBox, type SizeCssPx } from '../viewport/index.ts';
import { useDevicePixelRatio } from './use-media.ts';
import type { Presentation } from './use-presentation.ts';

interface PictureAreaProps {
  readonly presentation: Presentation | null;
  readonly free: SizeCssPx | null;
  readonly onFree: (free: SizeCssPx) => void;
  readonly children: ReactNode;
}

/** The free space and the picture in it. The canvas is the picture's box and nothing else: round it lies surround. */
export function PictureArea({ presentation, free, onFree, children }: PictureAreaProps): ReactNode {
  const area = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const drawer = useRef<PictureDrawer | null>(null);
  const devicePixelRatio = useDevicePixelRatio();
  const picture = presentation?.picture ?? null;
  const box = picture === null || free === null ? null : fitBox(picture.full, free, devicePixelRatio);

  useLayoutEffect(() => watchSize(area.current, onFree), [onFree]);
  useLayoutEffect(() => {
    if (canvas.current === null || picture === null || box === null) return;
    drawer.current ??= canvasDrawer(canvas.current);
    placeBox(canvas.current, box);
    drawer.current.draw(picture, box);
  });

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
      {children}
    </div>
  );
}

function NoPicture({ presentation }: { readonly presentation: Presentation }): ReactNode {
  const { frame, waiting } = presentation;
  const code = waiting ? 'page.picture-waits' : 'page.no-picture-yet';
  if (frame.picture.state === 'rendered' && !waiting) return null;
  return (
    <div className="no-picture paper">
      <p className="no-picture-name">{frame.name}</p>
      <p>
        {frame.picture.state === 'cannot'
          ? `${frame.kind}, ${sizePhrase(bytesOf(frame))}`
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

/** Set through the style object: a security policy without inline styles allows that, and no attribute is written. */
function placeBox(canvas: HTMLCanvasElement, box: PictureBox): void {
  canvas.style.left = `${box.leftCssPx}px`;
  canvas.style.top = `${box.topCssPx}px`;
  canvas.style.width = `${box.widthCssPx}px`;
  canvas.style.height = `${box.heightCssPx}px`;
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
