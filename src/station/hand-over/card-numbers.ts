import type { CardNumber } from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';

/** The last numbers on cards of which every file was here twice. A card that lacked anything proves no end. */
export function cardNumbers(keep: Pick<Keep, 'cardChecks'>): readonly CardNumber[] {
  return keep
    .cardChecks()
    .flatMap(({ isSafe, lasts, atMs }) => (isSafe ? lasts.map((last) => ({ ...last, atMs })) : []));
}
