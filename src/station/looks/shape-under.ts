import { type Look, placeOf } from '../../look/index.ts';

export interface Shape {
  readonly width: number;
  readonly height: number;
}

/** Size of a picture as this look places it, whatever look it is shown with now. */
export function shapeUnder(
  { geometry }: Pick<Look, 'geometry'>,
  { width, height, original }: Shape & { readonly original: Shape | null },
): Shape {
  const whole = original ?? { width, height };
  const placed = placeOf(geometry, whole.width, whole.height);
  return { width: placed.widthPx, height: placed.heightPx };
}
