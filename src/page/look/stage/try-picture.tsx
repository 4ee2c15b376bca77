import { type ReactNode, useLayoutEffect, useRef } from 'react';

/** The station's own rendering over the canvas, on its side of the edge. */
export function TryPicture({
  address,
  side,
  edge,
}: {
  readonly address: string;
  readonly side: 'now' | 'before';
  /** 0 where there is none: then all of it is `now`. */
  readonly edge: number;
}): ReactNode {
  const picture = useRef<HTMLImageElement>(null);
  useLayoutEffect(() => {
    const cut = side === 'now' ? `0 0 0 ${edge * 100}%` : `0 ${(1 - edge) * 100}% 0 0`;
    if (picture.current !== null) picture.current.style.clipPath = `inset(${cut})`;
  }, [edge, side]);
  return (
    <img
      ref={picture}
      className="look-try"
      src={address}
      alt=""
      data-testid={side === 'now' ? 'look-try' : 'look-try-before'}
    />
  );
}
