import type { Look as KeptLook } from '../../../contract/index.ts';
import { defaultLook, type Look } from '../../../look/index.ts';

/** What the work began from, or was last saved as. */
export interface Base {
  /** Null: the station's plain look, which nobody saved. */
  readonly id: string | null;
  readonly name: string;
  readonly version: number | null;
  readonly document: Look;
}

export function baseOf({ id, name, version, document }: KeptLook): Base {
  return { id, name, version, document };
}

export const plainBase: Base = { id: null, name: defaultLook.title, version: null, document: defaultLook };
