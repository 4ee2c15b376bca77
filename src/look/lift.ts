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

/**
 * An older document as one of the present version that gives the same picture; or the members that are missing, wrong or
 * not of that version, by name.
 */
export function liftLook(
  document: unknown,
): { readonly lifted: LookInput } | { readonly lifted: null; readonly members: readonly string[] } {
  const first = lookV1.safeParse(document);
  if (first.success) return { lifted: { ...first.data, version: currentVersion } };
  const members = first.error.issues.flatMap((issue) => {
    const path = issue.path.map(String);
    return issue.code === 'unrecognized_keys'
      ? issue.keys.map((key) => [...path, key].join('.'))
      : [path.join('.')];
  });
  return { lifted: null, members };
}
