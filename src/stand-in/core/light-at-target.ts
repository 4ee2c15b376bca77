/** How much light falls on the target: straight from the lights, and once off the paper before it. */
import { directLight } from './direct-light.ts';
import type { Card, Panel } from './kernels/stage.ts';
import { backdrop, roomLight } from './set-room.ts';
import { add, cross, normalised, scaled, type Vector } from './vector.ts';

/** Rings and rays to a ring of the half space that the target faces. */
const rings = 14;
const raysPerRing = 28;
/** Light on the paper is needed less finely than light on the target. */
const piecesOnPaper = 6;

/**
 * Irradiance over pi, green, from the paper and the room: a cosine-weighted mean of what is seen, as though nothing but
 * bare level paper lay before the target. Ware and cloth take some of it away.
 */
export function bouncedLight(panels: readonly Panel[], card: Card): number {
  const face = vectorOf(card.face);
  const at = add(vectorOf(card.centre), scaled(face, card.halfThickness));
  const across = normalised(cross([0, 1, 0], face));
  const up = cross(face, across);
  // Rays lie as the cosine wants them (the square root of an even share), so that it is not applied again.
  let sum = 0;
  for (let i = 0; i < rings; i++) {
    const share = (i + 0.5) / rings;
    for (let j = 0; j < raysPerRing; j++) {
      const angle = (2 * Math.PI * (j + 0.5)) / raysPerRing;
      const flat = add(scaled(across, Math.cos(angle)), scaled(up, Math.sin(angle)));
      sum += seenAlong(panels, at, add(scaled(face, Math.sqrt(1 - share)), scaled(flat, Math.sqrt(share))));
    }
  }
  return sum / (rings * raysPerRing);
}

function seenAlong(panels: readonly Panel[], at: Vector, way: Vector): number {
  if (way[1] >= 0) return roomLight[1] * (0.6 + 0.4 * way[1]);
  const [x, , z] = add(at, scaled(way, -at[1] / way[1]));
  const kept = fadeOut(z, backdrop.frontMm) * fadeOut(Math.abs(x), backdrop.sideMm);
  const light = kept === 0 ? 0 : directLight(panels, [x, 0, z], [0, 1, 0], piecesOnPaper) + roomLight[1];
  return (backdrop.albedo[1] ?? 0) * light * kept;
}

function fadeOut(place: number, from: number): number {
  const t = Math.min(1, Math.max(0, (place - from) / backdrop.fadeMm));
  return 1 - t * t * (3 - 2 * t);
}

/** EV of the light on a point of the target's face with these lights against those. */
export function lightEvAt(card: Card, at: Vector, firing: readonly Panel[], all: readonly Panel[]): number {
  const face = vectorOf(card.face);
  const total = (panels: readonly Panel[]): number =>
    directLight(panels, at, face) + bouncedLight(panels, card);
  return Math.log2(total(firing) / total(all));
}

const vectorOf = (a: Float64Array): Vector => [a[0] ?? 0, a[1] ?? 0, a[2] ?? 0];
