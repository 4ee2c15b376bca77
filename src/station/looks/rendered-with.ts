import { SetsideError } from '../../base/index.ts';
import type { RenderedBy } from '../rendered-by.ts';
import { plainLook } from './frame-look.ts';
import type { LookBook } from './look-book.ts';

/**
 * What a frame is rendered by where a look is asked for by its hash: the one in force, the station's plain one, or any that
 * is kept, laid aside or not. Throws `no-look`.
 */
export function renderedWith(
  looks: Pick<LookBook, 'byHash'>,
  inForce: RenderedBy,
  hash: string | undefined,
): RenderedBy {
  if (hash === undefined || hash === inForce.look.hash) return inForce;
  const look = hash === plainLook.hash ? plainLook : looks.byHash(hash);
  if (look === null) throw new SetsideError('no-look', `no look of the hash ${hash} is kept`);
  return { ...inForce, look };
}
