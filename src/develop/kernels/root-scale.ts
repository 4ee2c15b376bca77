/**
 * The scale on which missing colours are interpolated: the root of light, its foot moved a little below black, so that
 * noise around black stays whole and has no infinite slope. What a gradient in one colour says about another is a share
 * (as between the codes of a picture), not a difference of light: on light itself, a bright edge pushes a dark channel
 * far beyond black.
 *
 * Measured on seven reference photographs with an earlier, fixed filter: 4.5 dB more than on light.
 */
export const rootFoot: number = 1 / 128;
