import type { HueBand } from '../../../look/index.ts';

/** The wheel lies about (0, 0); hue runs as on paper, 0 to the right, 90 up. */
export const wheel = { hole: 40, ring: 86, outer: 98, reach: 36 } as const;

export interface WheelPlace {
  readonly x: number;
  readonly y: number;
}

export function onWheel(hueDeg: number, radius: number): WheelPlace {
  const angle = (hueDeg * Math.PI) / 180;
  return { x: radius * Math.cos(angle), y: -radius * Math.sin(angle) };
}

/** 0 … 360. */
export function hueAt({ x, y }: WheelPlace): number {
  return ((Math.atan2(-y, x) * 180) / Math.PI + 360) % 360;
}

/** A handle stands on the radius that tells its chroma: none in the hole, double on the ring. */
export function radiusOf(chroma: number): number {
  const middle = (wheel.hole + wheel.ring) / 2;
  return middle + chroma * ((wheel.ring - wheel.hole) / 2);
}

export function chromaAt({ x, y }: WheelPlace): number {
  const middle = (wheel.hole + wheel.ring) / 2;
  return (Math.hypot(x, y) - middle) / ((wheel.ring - wheel.hole) / 2);
}

/** How much of a band a hue belongs to: the window of the room `look`, half a cosine wave. */
export function weightAt(hueDeg: number, band: Pick<HueBand, 'hueDeg' | 'reachDeg'>): number {
  const away = Math.abs(hueDeg - band.hueDeg - 360 * Math.round((hueDeg - band.hueDeg) / 360));
  return away >= band.reachDeg ? 0 : 0.5 * (1 + Math.cos((Math.PI * away) / band.reachDeg));
}

/** The closed line of all bands together: out where chroma grows, in where it falls, moved along where hues turn. */
export function bandsLine(bands: readonly HueBand[]): readonly WheelPlace[] {
  return Array.from({ length: 120 }, (_, index) => {
    const hue = index * 3;
    let [chroma, turn] = [0, 0];
    for (const band of bands) {
      const weight = weightAt(hue, band);
      chroma += weight * band.chroma;
      turn += weight * band.turnDeg;
    }
    return onWheel(hue + turn, radiusOf(Math.min(1.2, Math.max(-1, chroma))));
  });
}

/** A piece of the ring from one hue to another, as a path. */
export function ringPath(fromDeg: number, toDeg: number, inner: number, outer: number): string {
  const large = toDeg - fromDeg > 180 ? 1 : 0;
  const say = ({ x, y }: WheelPlace): string => `${x.toFixed(2)} ${y.toFixed(2)}`;
  const [a, b] = [onWheel(fromDeg, outer), onWheel(toDeg, outer)];
  const [c, d] = [onWheel(toDeg, inner), onWheel(fromDeg, inner)];
  return `M${say(a)}A${outer} ${outer} 0 ${large} 0 ${say(b)}L${say(c)}A${inner} ${inner} 0 ${large} 1 ${say(d)}Z`;
}
