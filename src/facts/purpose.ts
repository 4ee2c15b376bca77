/**
 * What a frame was taken for. Only pictures are judged fully. `target`: the colour target or grey card; `test`: light and
 * position being tried, or a slate held into the picture; `plate`: the empty set; `stack`: one of a focus series; `light-layer`: one of several lightings.
 */
export const purposes = ['picture', 'target', 'test', 'plate', 'stack', 'light-layer'] as const;
export type Purpose = (typeof purposes)[number];

/**
 * Whether a frame shows the light of its shot: the others hold something before the lens, leave the subject out, or are lit
 * otherwise on purpose.
 */
export function showsLight(purpose: Purpose): boolean {
  return purpose === 'picture' || purpose === 'stack';
}
