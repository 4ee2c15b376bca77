import type { CountedTarget, Question, ShotScale, TargetEdition, Tolerances } from '../../facts/index.ts';
import {
  type Jobs,
  type Looks,
  lookInForce,
  referenceInForce,
  requiredOf,
  type Shot,
  scaleInForce,
  targetInForce,
  targetToRenderBy,
  tolerancesInForce,
} from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { type FrameLook, frameLook, plainLook } from '../looks/frame-look.ts';
import { type BalancedOn, balancedOn } from '../target-balance.ts';

/** What a frame's readings are held against. */
export interface FrameLimits {
  readonly tolerances: Tolerances;
  /** Id of the frame its shot is held against; null for none, and for that frame itself. */
  readonly reference: string | null;
  /** Whether it is that frame itself. */
  readonly isReference: boolean;
  /** What its place is held against: the reference, else the shot's layout picture; null for none, and for the reference itself. */
  readonly place: { readonly frame: string; readonly layout: boolean } | null;
  /** A target to look for in it; null where nobody asks for one. */
  readonly target: { readonly edition: TargetEdition | null } | null;
  /** Which edition the target on this set is, where somebody said it. */
  readonly edition: TargetEdition | null;
  /** The target that counts for it; null for none. */
  readonly counted: CountedTarget | null;
  /** What it is rendered by, of the target that counts or of its own; null: by its own balance and the camera's matrix. */
  readonly balance: BalancedOn | null;
  /** What it is shown with. */
  readonly look: FrameLook;
  readonly toleranceSet: string | null;
  /** How large things are in the shot's pictures; null where nobody told it. */
  readonly scale: ShotScale | null;
  /** From one row of its camera's sensor to the next, µs; null where nobody said. */
  readonly rowTimeUs: number | null;
  /** Verdicts that are judged but not spoken of for its shot. */
  readonly mutes: readonly Question[];
}

export const noLimits: FrameLimits = {
  tolerances: {},
  reference: null,
  isReference: false,
  place: null,
  target: null,
  edition: null,
  counted: null,
  balance: null,
  look: plainLook,
  toleranceSet: null,
  scale: null,
  rowTimeUs: null,
  mutes: [],
};

type Placed = Pick<FrameRow, 'id' | 'job' | 'shot' | 'camera' | 'orderMs' | 'purpose' | 'look'>;

/** The limits that its job and shot set for a frame now. */
export function limitsOfFrame(jobs: Jobs, looks: Looks, row: Placed): Omit<FrameLimits, 'rowTimeUs'> {
  const job = jobs.get(row.job);
  if (job === undefined) {
    const target = row.purpose === 'target' ? { edition: null } : null;
    return { ...noLimits, target, look: frameLook(looks, lookInForce(null, null, row.look)) };
  }
  const shot = job.shots.find((each) => each.id === row.shot) ?? null;
  const { id, camera, orderMs } = row;
  const reference = shot === null ? null : referenceInForce(shot, orderMs);
  const isReference = reference === id;
  return {
    tolerances: tolerancesInForce(job, shot),
    reference: isReference ? null : reference,
    isReference,
    place: isReference ? null : placeReference(shot, reference),
    target: asksForTarget(shot, row) ? { edition: job.colour.edition } : null,
    edition: job.colour.edition,
    counted: targetInForce(job, { id, camera, momentMs: orderMs }),
    balance: balancedOn(targetToRenderBy(job, { camera, momentMs: orderMs })),
    look: frameLook(looks, lookInForce(job, shot, row.look)),
    toleranceSet: job.colour.toleranceSet,
    scale: scaleInForce(job, row.shot),
    mutes: shot?.mutes ?? [],
  };
}

function placeReference(shot: Shot | null, reference: string | null): FrameLimits['place'] {
  if (reference !== null) return { frame: reference, layout: false };
  const layout = shot?.layout ?? null;
  return layout === null ? null : { frame: layout, layout: true };
}

/** In a frame that was taken for it, and where colour has to be true: a target may stand at the edge of any picture. */
function asksForTarget(shot: Shot | null, { purpose }: Placed): boolean {
  if (purpose === 'target') return true;
  return shot !== null && requiredOf(shot, purpose).includes('colour') && !shot.mutes.includes('colour');
}
