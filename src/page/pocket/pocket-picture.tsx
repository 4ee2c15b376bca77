import { type ReactNode, useLayoutEffect, useRef } from 'react';
import { kindName, sentence } from '../../words/index.ts';
import { canvasDrawer, placeCanvas } from '../drawer/index.ts';
import { useDevicePixelRatio } from '../set/use-media.ts';
import type { Presentation } from '../set/use-presentation.ts';
import { noPictureCode } from '../state/index.ts';
import { fitBox, type SizeCssPx } from '../viewport/index.ts';

interface PocketPictureProps {
  readonly presentation: Presentation | null;
  readonly free: SizeCssPx | null;
}

/** The whole picture in the free space; the one before stays until the next is decoded. */
export function PocketPicture({ presentation, free }: PocketPictureProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const devicePixelRatio = useDevicePixelRatio();
  const picture = presentation?.picture ?? null;
  useLayoutEffect(() => {
    const element = canvas.current;
    if (element === null || picture === null || free === null) return;
    const box = fitBox(picture.full, free, devicePixelRatio);
    placeCanvas(element, box);
    canvasDrawer(element).draw(picture, box);
  }, [picture, free, devicePixelRatio]);
  const frame = presentation?.frame ?? null;
  return (
    <>
      <canvas
        ref={canvas}
        data-testid="pocket-picture"
        data-frame-id={frame?.id ?? ''}
        data-state={picture?.kind ?? 'none'}
        hidden={picture === null}
        role="img"
        aria-label={frame?.name ?? ''}
      />
      {frame !== null && picture === null ? (
        <p className="pocket-no-picture paper">
          {frame.picture.state === 'cannot'
            ? kindName(frame.kind)
            : sentence({ code: noPictureCode(frame, presentation?.waiting ?? false), args: {} })}
        </p>
      ) : null}
    </>
  );
}
