/** A card that somebody holds into the picture: a slate with a QR code, or a grey card in front of the whole lens. */
import { type CodeModules, codeModules, quietModules } from '../../slate/index.ts';
import type { FrameRecipe } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { uniform } from './kernels/hash.ts';
import { sceneCode, sceneDecodeTable } from './scene-code.ts';

/** Left top, right top, right bottom, left bottom as the slate lies, pixels of the sensor. */
export type CornersPx = readonly (readonly [number, number])[];

/** Where a slate is: its code with the quiet zone is a square, turned about its middle, then tilted about the upright. */
export interface SlatePlace {
  readonly edgePx: number;
  readonly centrePx: readonly [number, number];
  readonly rollDegrees: number;
  readonly tiltDegrees: number;
}

/** Reflectance of ink and paper, and of a grey card: the light of the set falls on all of them. */
const inkReflectance = 0.04;
const paperReflectance = 0.82;
const greyReflectance = 0.18;
/** Distance of the lens in pixels of the frame's width: how strongly a tilted edge runs together. */
const focalWidths = 1.8;
/** Points a pixel's light is gathered at, each way. */
const pointsPerPixel = 4;

/** How somebody holds it this time: an eighth to a fifth of the frame's width, never straight. */
export function slatePlace({ noiseSeed }: Pick<FrameRecipe, 'noiseSeed'>, size: FrameSize): SlatePlace {
  const vary = (lane: number): number => uniform(noiseSeed, lane);
  return {
    edgePx: size.widthPx * (0.125 + 0.075 * vary(21)),
    centrePx: [size.widthPx * (0.35 + 0.3 * vary(22)), size.heightPx * (0.4 + 0.2 * vary(23))],
    rollDegrees: 50 * (vary(24) - 0.5),
    tiltDegrees: 60 * (vary(25) - 0.5),
  };
}

/** The corners of the code's modules, quiet zone left out. */
export function codeCorners(text: string, place: SlatePlace): CornersPx {
  const { size } = codeModules(text);
  const half = size / (size + 2 * quietModules) / 2;
  return [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ].map(([a = 0, b = 0]) => onSensor(place, a * place.edgePx, b * place.edgePx));
}

/** From the card's own plane to the sensor: a pinhole `focalWidths` card-distances away. */
function onSensor(place: SlatePlace, a: number, b: number): readonly [number, number] {
  const { cos, sin, cosTilt, sinTilt, focalPx } = turns(place);
  const u = a * cos - b * sin;
  const v = a * sin + b * cos;
  const depth = focalPx / (focalPx + u * sinTilt);
  return [place.centrePx[0] + u * cosTilt * depth, place.centrePx[1] + v * depth];
}

/** The other way: a point of the sensor on the card's plane. */
function onCard(place: SlatePlace, x: number, y: number): readonly [number, number] {
  const { cos, sin, cosTilt, sinTilt, focalPx } = turns(place);
  const dx = x - place.centrePx[0];
  const u = (dx * focalPx) / (focalPx * cosTilt - dx * sinTilt);
  const v = ((y - place.centrePx[1]) * (focalPx + u * sinTilt)) / focalPx;
  return [u * cos + v * sin, v * cos - u * sin];
}

function turns({
  edgePx,
  rollDegrees,
  tiltDegrees,
}: SlatePlace): Readonly<Record<'cos' | 'sin' | 'cosTilt' | 'sinTilt' | 'focalPx', number>> {
  const [roll, tilt] = [(rollDegrees * Math.PI) / 180, (tiltDegrees * Math.PI) / 180];
  return {
    cos: Math.cos(roll),
    sin: Math.sin(roll),
    cosTilt: Math.cos(tilt),
    sinTilt: Math.sin(tilt),
    focalPx: focalWidths * edgePx * 5,
  };
}

/** The rendering's codes with the slate in front of the set; a copy. The card stands where the sensor's pixels are, whatever the frame's offset. */
export function withSlate(
  codes: Uint16Array,
  size: FrameSize,
  text: string,
  place: SlatePlace,
): Uint16Array<ArrayBuffer> {
  const held = new Uint16Array(codes);
  const modules = codeModules(text);
  const reach = Math.ceil(place.edgePx);
  const decode = sceneDecodeTable();
  const { marginPx, widthPx, heightPx } = size;
  const rowPx = widthPx + 2 * marginPx;
  const [cx, cy] = place.centrePx.map(Math.round);
  for (
    let y = Math.max(-marginPx, (cy ?? 0) - reach);
    y < Math.min(heightPx + marginPx, (cy ?? 0) + reach);
    y += 1
  ) {
    for (
      let x = Math.max(-marginPx, (cx ?? 0) - reach);
      x < Math.min(widthPx + marginPx, (cx ?? 0) + reach);
      x += 1
    ) {
      const [light, share] = cardLight(modules, place, x, y);
      if (share === 0) continue;
      const at = ((y + marginPx) * rowPx + x + marginPx) * 3;
      for (let channel = 0; channel < 3; channel += 1) {
        const behind = decode[held[at + channel] ?? 0] ?? 0;
        held[at + channel] = sceneCode(light + behind * (1 - share));
      }
    }
  }
  return held;
}

/** Light of the card in one pixel, and which share of the pixel it covers. */
function cardLight(modules: CodeModules, place: SlatePlace, x: number, y: number): readonly [number, number] {
  let light = 0;
  let hits = 0;
  for (let n = 0; n < pointsPerPixel ** 2; n += 1) {
    const [a, b] = onCard(
      place,
      x + ((n % pointsPerPixel) + 0.5) / pointsPerPixel,
      y + (Math.floor(n / pointsPerPixel) + 0.5) / pointsPerPixel,
    );
    const reflectance = reflectanceAt(modules, a / place.edgePx + 0.5, b / place.edgePx + 0.5);
    if (reflectance === null) continue;
    light += reflectance;
    hits += 1;
  }
  return [light / pointsPerPixel ** 2, hits / pointsPerPixel ** 2];
}

function reflectanceAt({ size, dark }: CodeModules, a: number, b: number): number | null {
  if (a < 0 || b < 0 || a >= 1 || b >= 1) return null;
  const column = Math.floor(a * (size + 2 * quietModules)) - quietModules;
  const row = Math.floor(b * (size + 2 * quietModules)) - quietModules;
  const inside = row >= 0 && column >= 0 && row < size && column < size;
  return inside && dark[row * size + column] === 1 ? inkReflectance : paperReflectance;
}

/** A grey card in front of everything: light falls off by a fifth of a stop to the sides. */
export function greyCardCodes(size: FrameSize): Uint16Array<ArrayBuffer> {
  const columns = size.widthPx + 2 * size.marginPx;
  const rows = size.heightPx + 2 * size.marginPx;
  const codes = new Uint16Array(columns * rows * 3);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const [x, y] = [(2 * column) / columns - 1, (2 * row) / rows - 1];
      const code = sceneCode(greyReflectance * 2 ** (-0.1 * (x * x + y * y)));
      codes.fill(code, (row * columns + column) * 3, (row * columns + column) * 3 + 3);
    }
  }
  return codes;
}
