import { SetsideError } from '../base/index.ts';
import { type SharePoint, type ShotScale, targetSteps, targetWidthSteps } from '../facts/index.ts';
import { jobToChange, listedShot } from './checks.ts';
import type { JobChoice } from './choice.ts';
import type { Jobs } from './job.ts';
import { scaleMmMax, scalePxMin } from './limits.ts';

/** What somebody says of a frame's scale. */
export interface ToldScale {
  readonly frame: string;
  readonly camera: string;
  readonly shot: string;
  /** Upright, px. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly focalLengthMm: number | null;
  /** Between the points; or from the first to the sixth patch of a row of the target, edge to same edge. */
  readonly mm: number;
  /** Two of them, or the width of the target that was read in the frame, px. */
  readonly on: { readonly points: readonly [SharePoint, SharePoint] } | { readonly targetWidthPx: number };
}

/**
 * From now on the shot's pictures have this scale; one that it had is replaced. Throws `no-job`, `no-shot`,
 * `job-finished`, and `bad-scale` for a length that is none or too short to be measured in the picture.
 */
export function planScale(jobs: Jobs, code: string, told: ToldScale): JobChoice[] {
  const job = jobToChange(jobs, code);
  listedShot(job, told.shot);
  const { shot, frame, camera, focalLengthMm, mm, widthPx, heightPx } = told;
  const px = lengthPx(told);
  if (!(mm > 0 && mm <= scaleMmMax))
    throw new SetsideError('bad-scale', `expected a length of 0 to ${scaleMmMax} mm, got ${mm}`);
  if (!(px >= scalePxMin))
    throw new SetsideError(
      'bad-scale',
      `${px.toFixed(1)} px are too few to measure by, ${scalePxMin} are wanted`,
    );
  const by = 'points' in told.on ? ('points' as const) : ('target' as const);
  const longSidePx = Math.max(widthPx, heightPx);
  const scale: ShotScale = { shot, frame, camera, by, mm, px, longSidePx, focalLengthMm };
  const scales = [...job.scales.filter((known) => known.shot !== shot), scale];
  return [{ type: 'job-scales-set', job: code, scales }];
}

/** Nobody says how large the shot's pictures are any more; no choice where nobody had. Throws as `planScale`. */
export function planScaleGone(jobs: Jobs, code: string, shot: string): JobChoice[] {
  const job = jobToChange(jobs, code);
  listedShot(job, shot);
  const left = job.scales.filter((known) => known.shot !== shot);
  return left.length === job.scales.length ? [] : [{ type: 'job-scales-set', job: code, scales: left }];
}

function lengthPx({ on, widthPx, heightPx }: ToldScale): number {
  if ('targetWidthPx' in on) return (on.targetWidthPx * targetSteps) / targetWidthSteps;
  const [a, b] = on.points;
  return Math.hypot((b.x - a.x) * widthPx, (b.y - a.y) * heightPx);
}
