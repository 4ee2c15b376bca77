import { type ReactNode, useLayoutEffect, useRef } from 'react';
import type { Frame } from '../../../contract/index.ts';
import { rectOf } from '../../readings/laid-rect.ts';
import { useDevicePixelRatio } from '../../set/use-media.ts';
import type { Zoom } from '../../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../../viewport/index.ts';

interface RemarkPinsProps {
  readonly frame: Frame;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** What guests pointed at, numbered as it came; the pins go along with the picture. What was said stands in the words below. */
export function RemarkPins({ frame, picture, free, zoom }: RemarkPinsProps): ReactNode {
  const list = useRef<HTMLOListElement>(null);
  const unit = useDevicePixelRatio();
  const pinned = frame.remarks.flatMap(({ point, id, text }, index) =>
    point === null ? [] : [{ id, text, point, number: index + 1 }],
  );
  const { motion } = zoom;
  useLayoutEffect(() => {
    const place = (): void => {
      const rect = rectOf(motion.view, motion.stage, picture, free, unit);
      for (const pin of list.current?.querySelectorAll<HTMLElement>('li') ?? []) {
        const [x, y] = [Number(pin.dataset.x), Number(pin.dataset.y)];
        pin.style.left = `${(rect.left + x * rect.width) / unit}px`;
        pin.style.top = `${(rect.top + y * rect.height) / unit}px`;
      }
    };
    place();
    return motion.subscribe(place);
  });
  if (pinned.length === 0) return null;
  return (
    <ol className="remark-pins" ref={list}>
      {pinned.map(({ id, text, point, number }) => (
        <li key={id} data-x={point.x} data-y={point.y} title={text}>
          {number}
        </li>
      ))}
    </ol>
  );
}
