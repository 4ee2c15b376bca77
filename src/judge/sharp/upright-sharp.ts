import type { EdgeProfile, Orientation, ShareBox, SharpReading } from '../../facts/index.ts';

type Share = readonly [x: number, y: number];

/** A place of the stored picture in the upright one, both as shares (Exif 2.32, Orientation: where row 0 and column 0 are). */
export function uprightShare([x, y]: Share, orientation: Orientation): Share {
  switch (orientation) {
    case 1:
      return [x, y];
    case 2:
      return [1 - x, y];
    case 3:
      return [1 - x, 1 - y];
    case 4:
      return [x, 1 - y];
    case 5:
      return [y, x];
    case 6:
      return [1 - y, x];
    case 7:
      return [1 - y, 1 - x];
    case 8:
      return [y, 1 - x];
  }
}

/** Orientation that undoes another. */
const inverse: Readonly<Record<Orientation, Orientation>> = {
  1: 1,
  2: 2,
  3: 3,
  4: 4,
  5: 5,
  6: 8,
  7: 7,
  8: 6,
};

/** A box of the upright picture as it lies in the stored one. */
export function storedBox<Told extends ShareBox>(box: Told, orientation: Orientation): Told {
  return { ...box, ...uprightBox(box, inverse[orientation]) };
}

/** A reading as the picture is seen. */
export function uprightSharp(reading: SharpReading, orientation: Orientation): SharpReading {
  if (orientation === 1) return reading;
  const { spot, elsewhere, blur, map, profile } = reading;
  return {
    ...reading,
    spot: spot === null ? null : { ...spot, ...uprightBox(spot, orientation) },
    elsewhere: elsewhere === null ? null : { ...elsewhere, ...uprightBox(elsewhere, orientation) },
    blur:
      blur.directionDegrees === null
        ? blur
        : { ...blur, directionDegrees: uprightDirection(blur.directionDegrees, orientation) },
    map: uprightMap(map, orientation),
    profile: profile === null ? null : uprightProfile(profile, orientation),
  };
}

/** A box of the stored picture as it lies in the upright one. */
export function uprightBox({ left, top, right, bottom }: ShareBox, orientation: Orientation): ShareBox {
  const [ax, ay] = uprightShare([left, top], orientation);
  const [bx, by] = uprightShare([right, bottom], orientation);
  return { left: Math.min(ax, bx), top: Math.min(ay, by), right: Math.max(ax, bx), bottom: Math.max(ay, by) };
}

/** Degrees from x towards y, 0 … 180, of a line in the stored picture. */
export function uprightDirection(degrees: number, orientation: Orientation): number {
  const angle = (degrees * Math.PI) / 180;
  const [x0, y0] = uprightShare([0, 0], orientation);
  const [x1, y1] = uprightShare([Math.cos(angle), Math.sin(angle)], orientation);
  return ((Math.atan2(y1 - y0, x1 - x0) * 180) / Math.PI + 360) % 180;
}

function uprightProfile(profile: EdgeProfile, orientation: Orientation): EdgeProfile {
  const [x, y] = uprightShare([profile.x, profile.y], orientation);
  return { ...profile, x, y, acrossDegrees: uprightDirection(profile.acrossDegrees, orientation) };
}

function uprightMap(
  { columns, rows, columnEnds, rowEnds, widthsPx }: SharpReading['map'],
  orientation: Orientation,
): SharpReading['map'] {
  const turned = orientation >= 5;
  const out = { columns: turned ? rows : columns, rows: turned ? columns : rows };
  const widths = new Array<number | null>(widthsPx.length).fill(null);
  widthsPx.forEach((width, index) => {
    const centre: Share = [((index % columns) + 0.5) / columns, (Math.floor(index / columns) + 0.5) / rows];
    const [x, y] = uprightShare(centre, orientation);
    widths[Math.floor(y * out.rows) * out.columns + Math.floor(x * out.columns)] = width;
  });
  const [right, down] = uprightShare([0, 0], orientation);
  const [across, along] = turned ? [rowEnds, columnEnds] : [columnEnds, rowEnds];
  return {
    ...out,
    columnEnds: right === 1 ? mirrored(across) : across,
    rowEnds: down === 1 ? mirrored(along) : along,
    widthsPx: widths,
  };
}

/** The ends of the same pieces, counted from the other side. */
function mirrored(ends: readonly number[]): number[] {
  const starts = [0, ...ends.slice(0, -1)];
  return starts.map((start) => 1 - start).reverse();
}
