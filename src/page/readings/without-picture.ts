import type { HeldAgainst } from '../state/index.ts';

/** Why no picture of the reference is loaded: there is none, or there is one that has no picture to show. */
export function withoutPicture(against: HeldAgainst | null, wanted: boolean): 'none' | 'failed' {
  return wanted && against !== null ? 'failed' : 'none';
}
