import { type CharacteristicCurve, curveFunction } from '../../../look/index.ts';

/**
 * The characteristic curve as sensitometry draws it: log exposure to the right, in stops about 18 % grey; density down
 * from white, so that the line climbs. Places are in the units of the drawing.
 */
export interface CurveFrame {
  readonly width: number;
  readonly height: number;
}

/** What is drawn: stops about grey, density below white. */
export const stopsShown = { from: -9, to: 6 } as const;
export const densityShown = 3.2;

const grey = 0.18;

export function xOfStops({ width }: CurveFrame, stops: number): number {
  return ((stops - stopsShown.from) / (stopsShown.to - stopsShown.from)) * width;
}

export function stopsOfX({ width }: CurveFrame, x: number): number {
  return stopsShown.from + (x / width) * (stopsShown.to - stopsShown.from);
}

export function yOfDensity({ height }: CurveFrame, density: number): number {
  return (density / densityShown) * height;
}

export function densityOfY({ height }: CurveFrame, y: number): number {
  return (y / height) * densityShown;
}

/** Density below white of display light. */
export function densityOf(light: number): number {
  return light <= 10 ** -densityShown ? densityShown : -Math.log10(Math.min(1, light));
}

/** The line; `densityRange` is laid on as the look lays it: black is no darker than that. */
export function curveLine(
  frame: CurveFrame,
  curve: CharacteristicCurve,
): readonly (readonly [number, number])[] {
  const light = shownLight(curve);
  const steps = 150;
  return Array.from({ length: steps + 1 }, (_, step) => {
    const stops = stopsShown.from + (step / steps) * (stopsShown.to - stopsShown.from);
    return [xOfStops(frame, stops), yOfDensity(frame, densityOf(light(grey * 2 ** stops)))] as const;
  });
}

/** Display light of scene light. */
export function shownLight(curve: CharacteristicCurve): (scene: number) => number {
  const { evaluate } = curveFunction(curve);
  const black = curve.densityRange === null ? 0 : 10 ** -curve.densityRange;
  return (scene) => black + (1 - black) * evaluate(scene);
}

export type HandleName = 'toe' | 'straight' | 'pivot' | 'shoulder' | 'white' | 'black';

export interface CurveHandle {
  readonly name: HandleName;
  readonly x: number;
  readonly y: number;
}

/** Where the handle of the straight line stands, stops below the pivot. */
const straightStops = -1.5;
/** Of the way from the pivot to white. */
const shoulderShare = 0.62;

/** The places on the line that are dragged. */
export function curveHandles(frame: CurveFrame, curve: CharacteristicCurve): readonly CurveHandle[] {
  const light = shownLight(curve);
  const pivotStops = Math.log2(curve.pivot / grey);
  const on = (name: HandleName, stops: number): CurveHandle => ({
    name,
    x: xOfStops(frame, Math.min(stopsShown.to, Math.max(stopsShown.from, stops))),
    y: yOfDensity(frame, densityOf(light(grey * 2 ** stops))),
  });
  const handles = [
    on('toe', pivotStops - curve.toeEv),
    on('straight', pivotStops + straightStops),
    on('pivot', pivotStops),
    on('shoulder', pivotStops + curve.whiteEv * shoulderShare),
    on('white', pivotStops + curve.whiteEv),
  ];
  if (curve.densityRange === null) return handles;
  const y = yOfDensity(frame, Math.min(densityShown, curve.densityRange));
  return [...handles, { name: 'black', x: xOfStops(frame, stopsShown.from), y }];
}

/** A number of the curve after its handle was dragged to a place. */
export function draggedCurve(
  frame: CurveFrame,
  curve: CharacteristicCurve,
  handle: HandleName,
  to: { readonly x: number; readonly y: number },
): { readonly name: `curve.${Exclude<keyof CharacteristicCurve, never>}`; readonly value: number } {
  const stops = stopsOfX(frame, to.x);
  const density = densityOfY(frame, to.y);
  const pivotStops = Math.log2(curve.pivot / grey);
  switch (handle) {
    case 'toe':
      return { name: 'curve.toeEv', value: pivotStops - stops };
    case 'straight': {
      // The slope from here to the pivot, both on logarithmic axes.
      const fall = (density - densityOf(curve.pivot)) / Math.log10(2);
      return { name: 'curve.gamma', value: fall / -straightStops };
    }
    case 'pivot':
      return { name: 'curve.pivot', value: grey * 2 ** stops };
    case 'white':
      return { name: 'curve.whiteEv', value: stops - pivotStops };
    case 'black':
      return { name: 'curve.densityRange', value: density };
    case 'shoulder':
      return { name: 'curve.shoulder', value: shoulderAt(frame, curve, to.y) };
  }
}

/** The shoulder whose line passes through the height at the handle's place: found by halving, since the line rises with it. */
function shoulderAt(frame: CurveFrame, curve: CharacteristicCurve, y: number): number {
  const scene = curve.pivot * 2 ** (curve.whiteEv * shoulderShare);
  const wanted = densityOfY(frame, y);
  let [low, high] = [0.25, 4];
  for (let step = 0; step < 24; step++) {
    const shoulder = (low + high) / 2;
    const density = densityOf(shownLight({ ...curve, shoulder })(scene));
    if (density > wanted) low = shoulder;
    else high = shoulder;
  }
  return (low + high) / 2;
}
