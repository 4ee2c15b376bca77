import { useState } from 'react';
import { z } from 'zod';
import { copySpaces } from '../viewport/index.ts';

/** Shapes of deliveries, width by height; the empty one is the whole picture. Upright ones are the same turned. */
export const shapes: Readonly<Record<string, number | null>> = {
  '': null,
  '1 : 1': 1,
  '5 : 4': 5 / 4,
  '4 : 5': 4 / 5,
  '4 : 3': 4 / 3,
  '3 : 4': 3 / 4,
  '3 : 2': 3 / 2,
  '2 : 3': 2 / 3,
  '16 : 9': 16 / 9,
  '9 : 16': 9 / 16,
};

const place = 'setside.client-mask';
const kept = z.object({
  shape: z.string().refine((name) => name in shapes),
  copySpace: z.enum(copySpaces).nullable(),
});
export type MaskChoice = z.infer<typeof kept>;

/** What of the delivery lies over the client's picture, as this screen left it. */
export function useMaskChoice(): [MaskChoice, (mask: MaskChoice) => void] {
  const [mask, setMask] = useState<MaskChoice>(readMask);
  return [
    mask,
    (next) => {
      setMask(next);
      try {
        localStorage.setItem(place, JSON.stringify(next));
      } catch {
        // Kept for this visit only.
      }
    },
  ];
}

function readMask(): MaskChoice {
  try {
    const read = kept.safeParse(JSON.parse(localStorage.getItem(place) ?? 'null'));
    if (read.success) return read.data;
  } catch {
    // Nothing was kept, or cannot be.
  }
  return { shape: '', copySpace: null };
}
