import { z } from 'zod';
import { newAgreement, newAnswer, newRemark } from '../../contract/index.ts';

/** Something that was said on this device and is to reach the station. */
const letter = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('remark'), job: z.string(), frame: z.string(), body: newRemark }),
  z.object({
    kind: z.literal('answer'),
    job: z.string(),
    frame: z.string(),
    remark: z.string(),
    body: newAnswer,
  }),
  z.object({ kind: z.literal('agreement'), job: z.string(), shot: z.string(), body: newAgreement }),
]);
export type Letter = z.infer<typeof letter>;

const kept = z.object({ letter, refusal: z.string().nullable() });

/** With why the station did not take it, or null while nobody has heard of it. */
export type KeptLetter = z.infer<typeof kept>;

/** Where letters outlast the page: a `Storage`, or a map of a test. */
export interface Shelf {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

const place = 'setside.unsent';

/** What waits on this device, the oldest first; what cannot be read is nothing. */
export function lettersOn(shelf: Shelf): KeptLetter[] {
  try {
    const found = z.array(kept).safeParse(JSON.parse(shelf.getItem(place) ?? '[]'));
    return found.success ? found.data : [];
  } catch {
    return [];
  }
}

/**
 * Changes what waits. Read anew each time: a second tab of this device writes there too. False where the browser keeps
 * nothing; then it is the page's alone.
 */
export function changeLetters(
  shelf: Shelf,
  change: (letters: readonly KeptLetter[]) => readonly KeptLetter[],
): boolean {
  try {
    shelf.setItem(place, JSON.stringify(change(lettersOn(shelf))));
    return true;
  } catch {
    return false;
  }
}
