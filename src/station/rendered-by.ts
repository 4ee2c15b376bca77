import { type FrameLook, plainLook } from './looks/frame-look.ts';
import type { BalancedOn } from './target-balance.ts';

/** What decides, beside its original, how a frame is rendered. */
export interface RenderedBy {
  /** Null: by its own balance and its camera's matrix. */
  readonly balance: BalancedOn | null;
  readonly look: Pick<FrameLook, 'document' | 'hash'>;
}

/** By nobody's choice; also for what is read of the sensor's values, which no look and no target changes. */
export const plainly: RenderedBy = { balance: null, look: plainLook };
