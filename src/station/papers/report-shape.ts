import { type EpochMs, epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Tolerance } from '../../facts/index.ts';
import type { Job, JobReport } from '../../job/index.ts';
import { cameraShape, lineShape } from '../jobs/strike-shape.ts';

/** The contract's report. */
export function reportShape(job: Job, report: JobReport, atMs: EpochMs): contract.JobReport {
  const { times, light, numbers, signed } = report;
  return {
    ...{ job: job.code, title: job.title, client: job.client, at: epochMsToRfc3339(atMs) },
    ...{ frames: report.frames, shotless: report.shotless, ready: report.ready },
    shots: report.shots.map((shot) => ({
      ...shot,
      heroes: { ...shot.heroes },
      selects: { ...shot.selects },
    })),
    times: {
      steps: times.steps.map((step) => ({ ...step, seconds: [...step.seconds] })),
      doubts: times.doubts.map(({ code, args }) => ({ code, args: { ...args } })),
    },
    colour: report.colour.map(({ atMs: at, meanLimit, maxLimit, ...target }) => ({
      ...target,
      at: epochMsToRfc3339(at),
      meanLimit: limitShape(meanLimit),
      maxLimit: limitShape(maxLimit),
    })),
    light: {
      limit: limitShape(light.limit),
      points: light.points.map(({ atMs: at, ...point }) => ({ ...point, at: epochMsToRfc3339(at) })),
      unknown: light.unknown,
    },
    numbers: {
      missing: numbers.missing,
      lines: numbers.lines.map(lineShape),
      cameras: numbers.cameras.map(cameraShape),
    },
    copies: { ...report.copies },
    open: report.open.map(lineShape),
    accepted: report.accepted.map(lineShape),
    signed:
      signed === null
        ? null
        : { name: signed.name, at: epochMsToRfc3339(signed.atMs), stands: signed.stands },
  };
}

function limitShape({ good, bad }: Tolerance): { good: number; bad: number } {
  return { good, bad };
}
