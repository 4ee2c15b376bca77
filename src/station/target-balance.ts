import { createHash } from 'node:crypto';
import { type TargetBalance, targetBalance } from '../develop/index.ts';
import type { CameraProfile, CountedTarget } from '../facts/index.ts';

/** What frames are rendered by in place of their own balance and the camera's matrix. */
export interface BalancedOn {
  /** The frame with the target. */
  readonly frame: string;
  readonly balance: TargetBalance;
  /** What the balance is made from. */
  readonly profile: CameraProfile;
  /** Of the balance: part of the name of each rendering that is made with it. */
  readonly hash: string;
}

/** Asked for each frame that is told: worked out once for each target. */
const known = new WeakMap<CountedTarget, BalancedOn | null>();

/** Null for no target, and for one of which no profile of a raw could be made. */
export function balancedOn(target: CountedTarget | null): BalancedOn | null {
  if (target === null) return null;
  const before = known.get(target);
  if (before !== undefined) return before;
  const { frame, profile } = target;
  const balance = profile === null ? null : targetBalance(profile);
  const made =
    balance === null || profile === null ? null : { frame, balance, profile, hash: hashOf(balance) };
  known.set(target, made);
  return made;
}

function hashOf({ multipliers, xyzToCamera }: TargetBalance): string {
  return createHash('sha256')
    .update(JSON.stringify([multipliers, xyzToCamera]))
    .digest('hex');
}
