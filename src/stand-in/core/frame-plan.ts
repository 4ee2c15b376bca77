/** Which frames a session shoots, and how each differs from the perfect one. */
import { type Fault, type FaultOrder, faultsAt } from './faults.ts';
import { uniform } from './kernels/hash.ts';

/** The shot list of job QM-26, in the order of the day. */
export const shotNames = ['mug', 'jug', 'bowl', 'plate-stack', 'teapot', 'group'] as const;
export type ShotName = (typeof shotNames)[number];

/**
 * `target`: the 24-patch target lies beside the ware. `picture`: the ware alone. `chart`: nothing but the target,
 * filling the frame, evenly lit; no part of the demo, but what colour is checked on.
 */
export type FramePurpose = 'target' | 'picture' | 'chart';

export interface FrameRecipe {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  /** Against the right exposure; what a strobe that recharges unevenly does. */
  readonly exposureEv: number;
  /** How far the picture lies right of and below the reference, pixels. */
  readonly offsetPx: readonly [number, number];
  /** Gaussian blur on top of the lens's own, standard deviation in pixels. */
  readonly addedSigmaPx: number;
  /** 32 bits. */
  readonly noiseSeed: number;
  readonly noise: boolean;
  /** What goes wrong with this frame on purpose, see `faults.ts`. */
  readonly faults: readonly Fault[];
  /** What somebody holds into the picture; nothing where it is left out. */
  readonly held?: Held;
}

/** A slate with this text as its code, or a grey card that fills the frame. */
export type Held = { readonly kind: 'slate'; readonly text: string } | { readonly kind: 'grey-card' };

/** Something to be held into frames of a session, which count from 1. */
export interface HoldOrder {
  readonly held: Held;
  readonly frames: readonly number[];
}

export interface PlanOptions {
  /** Frames in all, 1 or more; shared out evenly by whole bursts, the first shots get what is left over. */
  readonly frames: number;
  /** Frames of one press of the shutter, 1 or more; default 1. Nothing is changed on the set between them. */
  readonly burst?: number;
  readonly shots: readonly ShotName[];
  readonly seed: number;
  /** Default: nothing goes wrong. */
  readonly faults?: readonly FaultOrder[];
  /** What is held into which frames; default: nothing. */
  readonly hold?: readonly HoldOrder[];
}

/** Strobes vary by some hundredths of a stop from flash to flash (common practice, no source). */
const exposureSpreadEv = 0.03;

/**
 * The frames of a session, burst after burst, the last one shorter where they do not come out even: each shot begins
 * with its target, its pictures follow.
 */
export function planFrames({
  frames,
  shots,
  seed,
  burst = 1,
  faults = [],
  hold = [],
}: PlanOptions): FrameRecipe[] {
  const bursts = Math.ceil(frames / burst);
  const right = shots.flatMap((shot, index) => {
    const share = Math.floor(bursts / shots.length) + (index < bursts % shots.length ? 1 : 0);
    return Array.from({ length: share * burst }, (_, take) =>
      planFrame(shot, take, take < burst ? 'target' : 'picture', seed + index * 1009 + take),
    );
  });
  return right.slice(0, frames).map((recipe, index) => {
    const order = hold.findLast((each) => each.frames.includes(index + 1));
    return {
      ...recipe,
      faults: faultsAt(faults, index + 1),
      ...(order === undefined ? {} : { held: order.held }),
    };
  });
}

function planFrame(shot: ShotName, take: number, purpose: FramePurpose, seed: number): FrameRecipe {
  const vary = (lane: number): number => uniform(seed, lane) * 2 - 1;
  return {
    shot,
    purpose,
    exposureEv: vary(1) * exposureSpreadEv,
    // The tripod stands still; whole pixels, so that nothing is softened by moving it.
    offsetPx: take < 2 ? [0, 0] : [Math.round(vary(2) * 2), Math.round(vary(3) * 2)],
    addedSigmaPx: 0,
    noiseSeed: Math.floor(uniform(seed, 4) * 4_294_967_296),
    noise: true,
    faults: [],
  };
}
