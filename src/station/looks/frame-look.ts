import type { LookInForce, Looks } from '../../job/index.ts';
import { defaultLook, type Look, lookHash } from '../../look/index.ts';

/** The look that a frame is shown with, as the station has it now. */
export interface FrameLook {
  /** Null: the station's plain look. */
  readonly id: string | null;
  readonly name: string;
  readonly version: number | null;
  readonly hash: string;
  readonly document: Look;
  readonly from: LookInForce['from'];
  /** The name of a look that was asked for and is not kept. */
  readonly wish: string | null;
}

/** What frames are shown with where nobody chose a look, or one that is not kept. */
export const plainLook: FrameLook = {
  id: null,
  name: defaultLook.title,
  version: null,
  hash: lookHash(defaultLook),
  document: defaultLook,
  from: 'station',
  wish: null,
};

/** An id that the journal lost is shown plainly, as a name that nothing meets. */
export function frameLook(looks: Looks, { id, wish, from }: LookInForce): FrameLook {
  const kept = id === null ? undefined : looks.get(id);
  if (kept === undefined) return { ...plainLook, from, wish };
  const { name, version, hash, document } = kept;
  return { id: kept.id, name, version, hash, document, from, wish };
}
