import type { Station } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import { mergeFindings } from '../../words/index.ts';

/**
 * That cameras were given an address which the station does not have any more, in one finding; null where none were, or where
 * addresses are nobody's business (a pocket is told none).
 */
export function changedAddress(station: Pick<Station, 'cameras'> | null): Finding | null {
  const [first, ...others] = (station?.cameras ?? [])
    .flatMap(({ trouble }) => trouble ?? [])
    .filter(({ code, args }) => code === 'line-check.address-changed' && args.address !== '');
  return first === undefined ? null : mergeFindings([first, ...others]);
}
