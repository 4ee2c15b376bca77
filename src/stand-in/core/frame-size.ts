/** The frame as the sensor lies: 3:2, landscape. */
export interface FrameSize {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Rendered around the frame on every side. */
  readonly marginPx: number;
}

/** About `megapixels`, exactly 3:2, both sides even; 6 gives 3000 x 2000. */
export function frameSize(megapixels: number): FrameSize {
  const unit = Math.max(8, Math.round(Math.sqrt((megapixels * 1e6) / 24)));
  return { widthPx: unit * 6, heightPx: unit * 4, marginPx: 4 * Math.ceil((unit * 6) / 750) };
}
