import { z } from 'zod';

/**
 * The characteristic curve: display light over scene light, both linear, drawn on logarithmic axes as in sensitometry.
 * A straight part of slope `gamma` through the pivot, a toe below it, a shoulder above it.
 */
export const curveSchema = z
  .strictObject({
    pivot: z
      .number()
      .min(0.05)
      .max(0.5)
      .describe('Scene value that is shown as the same display value; 0.18 is 18 % grey'),
    gamma: z.number().min(0.5).max(3).describe('Slope at the pivot on log-log axes'),
    toeEv: z
      .number()
      .min(1)
      .max(12)
      .describe(
        'Stops below the pivot where the toe begins; below it the slope goes towards 1, so black stays black',
      ),
    shoulder: z
      .number()
      .min(0.25)
      .max(4)
      .describe('How late and how sharply the shoulder bends; 1 is soft, 4 is abrupt'),
    whiteEv: z.number().min(1).max(10).describe('Stops above the pivot where display white is reached'),
  })
  .refine((curve) => curve.gamma * curve.whiteEv > Math.log2(1 / curve.pivot), {
    error: 'gamma x whiteEv must exceed log2(1 / pivot): a shoulder can only bend down',
    path: ['whiteEv'],
  });

/** A look, version 1: exposure, then the curve. `curve: null` shows scene light as it is, cut at 1. */
export const lookSchema = z.strictObject({
  version: z.literal(1),
  title: z.string().trim().min(1).max(80),
  description: z.string().trim().max(400),
  exposureEv: z.number().min(-5).max(5).describe('Stops added to the scene before the curve'),
  curve: curveSchema.nullable(),
});

export type Look = z.infer<typeof lookSchema>;
export type CharacteristicCurve = z.infer<typeof curveSchema>;

/** The look a job starts with: mid contrast, long soft shoulder, white three stops above grey. */
export const defaultLook: Look = {
  version: 1,
  title: 'Plain',
  description: 'Even contrast, soft highlights, no colour of its own.',
  exposureEv: 0,
  curve: { pivot: 0.18, gamma: 1.3, toeEv: 4, shoulder: 1, whiteEv: 3 },
};

/** No look at all: scene light is shown as it is. */
export const neutralLook: Look = {
  version: 1,
  title: 'Neutral',
  description: 'Scene light as it is, cut at white.',
  exposureEv: 0,
  curve: null,
};
