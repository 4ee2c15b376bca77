import { SetsideError } from '../../base/index.ts';
import type { Speaker } from '../../facts/index.ts';
import type { Who } from '../../serve/index.ts';

/** Who says so. Throws `name-wanted` for a guest without a name: a link is for several people. */
export function speakerOf(who: Who, name: string | undefined): Speaker {
  if (who.scope === 'guest' && name === undefined)
    throw new SetsideError('name-wanted', 'a guest says who they are');
  return { name: name ?? who.name, from: who.scope, link: who.link === undefined ? null : who.name };
}
