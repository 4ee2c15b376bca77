/** A stretch of values, or of places. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A size in the units of a plot's own drawing. */
export interface PlotSize {
  readonly width: number;
  readonly height: number;
}

/** Carries values to places along a straight scale; two equal ends give the middle. */
export function linear(values: Span, places: Span): (value: number) => number {
  const width = values.to - values.from;
  return (value) =>
    width === 0
      ? (places.from + places.to) / 2
      : places.from + ((value - values.from) / width) * (places.to - places.from);
}

export function clamp(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}

/** Two decimals are finer than a screen's pixel, and keep paths short. */
export function place(value: number): string {
  return String(Math.round(value * 100) / 100);
}
