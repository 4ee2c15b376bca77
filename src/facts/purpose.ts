/**
 * What a frame was taken for. Only pictures are judged fully. `target`: the colour target or grey card; `test`: light and
 * position being tried, or a slate held into the picture; `plate`: the empty set; `stack`: one of a focus series; `light-layer`: one of several lightings.
 */
export const purposes = ['picture', 'target', 'test', 'plate', 'stack', 'light-layer'] as const;
export type Purpose = (typeof purposes)[number];
