import { type ReactNode, useLayoutEffect, useRef } from 'react';
import { useDevicePixelRatio } from '../set/use-media.ts';
import type { Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import type { Placing } from './geometry/placing.ts';
import { type Laid, paintLaid } from './laid-painter.ts';
import { rectOf } from './laid-rect.ts';

interface LaidCanvasProps {
  readonly laid: Laid | null;
  readonly placing: Placing;
  readonly difference: boolean;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** A sheet of glass over the picture, moved along with it; it takes no part in what the hand does. */
export function LaidCanvas({ laid, placing, difference, picture, free, zoom }: LaidCanvasProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const unit = useDevicePixelRatio();
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d') ?? null;
    if (canvas.current === null || context === null) return;
    const { motion } = zoom;
    const sheet = canvas.current;
    const paint = (): void => {
      const [width, height] = [Math.floor(free.widthCssPx * unit), Math.floor(free.heightCssPx * unit)];
      if (sheet.width !== width) sheet.width = width;
      if (sheet.height !== height) sheet.height = height;
      context.clearRect(0, 0, width, height);
      if (laid !== null)
        paintLaid(context, laid, placing, rectOf(motion.view, motion.stage, picture, free, unit), unit);
    };
    paint();
    return motion.subscribe(paint);
  }, [laid, placing, picture, free, unit, zoom]);
  return (
    <canvas ref={canvas} className="laid" data-laid={laid?.kind ?? 'nothing'} data-difference={difference} />
  );
}
