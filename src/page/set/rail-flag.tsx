import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { sizePhrase } from '../../words/index.ts';
import { bySize, filesName, momentOf } from '../state/index.ts';
import { clockTime } from './clock.ts';

interface RailFlagProps {
  readonly frame: Frame;
  /** CSS pixels from the rail's left top. */
  readonly left: number;
  readonly top: number;
  readonly onLeave: () => void;
}

/** The pointer may go over to the flag, to read it at leisure. */
export function goesToFlag(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('.rail-flag') !== null;
}

/**
 * What a small picture has no room for: name, camera, time, size. For eyes only; the frame's own name says the same to
 * readers of the page's text.
 */
export function RailFlag({ frame, left, top, onLeave }: RailFlagProps): ReactNode {
  const sizes = bySize(frame.files)
    .map(({ size }) => sizePhrase(size))
    .join(' + ');
  return (
    <div
      className="rail-flag"
      aria-hidden="true"
      data-testid="rail-flag"
      style={{ left, top }}
      onPointerLeave={onLeave}
    >
      <strong>{filesName(frame)}</strong>
      <span>
        {frame.camera}, {clockTime(momentOf(frame))}
      </span>
      <span>{sizes}</span>
    </div>
  );
}
