import { epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import { type KeptLook, knownLook, type Looks, type NamedLook } from '../../job/index.ts';

/** The contract's saved version. */
export function lookShape(look: KeptLook): contract.Look {
  const { id, name, version, hash, savedMs, savedBy, document, laidAside } = look;
  return {
    ...{ id, name, version, hash, savedAt: epochMsToRfc3339(savedMs), savedBy, laidAside },
    document: structuredClone(document),
  };
}

/**
 * The look of a job or a shot as the rules take it: a version that is named by its id names its look too. Throws
 * `no-such-look`.
 */
export function namedLookOf(
  looks: Looks,
  {
    look,
    lookId,
  }: { readonly look?: string | null | undefined; readonly lookId?: string | null | undefined },
): Partial<NamedLook> {
  if (lookId === undefined) return look === undefined ? {} : { look };
  if (lookId === null) return { look: look ?? null };
  const kept = knownLook(looks, lookId);
  return { look: kept.name, lookId: kept.id };
}

/** How people call a version: `Evening 3`. */
export function lookTitle({ name, version }: Pick<KeptLook, 'name' | 'version'>): string {
  return `${name} ${version}`;
}
