/**
 * How samples lie where they are no 2x2 mosaic. Only what makes pictures takes these; whoever reads the samples themselves
 * is never given them.
 */
export type RawLayout =
  /** A mosaic of 6 x 6: `filters[(row % 6) * 6 + (column % 6)]`, 0 red, 1 green, 2 blue. */
  | { readonly kind: 'six'; readonly filters: readonly number[] }
  /** No filters: one sample of grey a pixel. */
  | { readonly kind: 'grey' }
  /** Three samples a pixel, already demosaiced: `values[(row * widthPx + column) * 3 + channel]`. */
  | { readonly kind: 'linear' };
