import { z } from 'zod';
import type { LookInput } from './schema.ts';

/** Version 1, as it was: exposure, then the curve. Its bounds were those of version 2, which checks them again. */
const lookV1 = z.strictObject({
  version: z.literal(1),
  title: z.string(),
  description: z.string(),
  exposureEv: z.number(),
  curve: z
    .strictObject({
      pivot: z.number(),
      gamma: z.number(),
      toeEv: z.number(),
      shoulder: z.number(),
      whiteEv: z.number(),
    })
    .nullable(),
});

/** The version that {@link liftLook} lifts to. */
export const currentVersion = 2;

/** An older document as one of the present version that gives the same picture; null where it is none. */
export function liftLook(document: unknown): LookInput | null {
  const first = lookV1.safeParse(document);
  return first.success ? { ...first.data, version: currentVersion } : null;
}
