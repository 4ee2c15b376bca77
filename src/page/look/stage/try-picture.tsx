import { type ReactNode, useLayoutEffect, useRef } from 'react';

/** The station's own rendering over the canvas, right of the edge. */
export function TryPicture({
  address,
  edge,
}: {
  readonly address: string;
  readonly edge: number;
}): ReactNode {
  const picture = useRef<HTMLImageElement>(null);
  useLayoutEffect(() => {
    if (picture.current !== null) picture.current.style.clipPath = `inset(0 0 0 ${edge * 100}%)`;
  }, [edge]);
  return <img ref={picture} className="look-try" src={address} alt="" data-testid="look-try" />;
}
