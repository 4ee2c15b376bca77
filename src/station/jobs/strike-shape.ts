import { createHash } from 'node:crypto';
import { type EpochMs, epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import { type Job, type StrikeCheck, type StrikeLine, type StrikeShot, stateOf } from '../../job/index.ts';

/** SHA-256 of what the check says. */
export function stateHash(check: StrikeCheck): string {
  return createHash('sha256').update(stateOf(check)).digest('hex');
}

/** The contract's strike check. */
export function strikeShape(job: Job, check: StrikeCheck, atMs: EpochMs): contract.Strike {
  const state = stateHash(check);
  const { signed } = job.strike;
  return {
    job: job.code,
    title: job.title,
    client: job.client,
    at: epochMsToRfc3339(atMs),
    ready: check.ready,
    open: check.open.map(lineShape),
    accepted: check.accepted.map(lineShape),
    shots: check.shots.map((shot) => shotShape(shot, check.open)),
    cameras: check.cameras.map(cameraShape),
    frames: check.frames,
    state,
    signed:
      signed === null
        ? null
        : { name: signed.name, at: epochMsToRfc3339(signed.atMs), stands: signed.state === state },
    version: job.version,
  };
}

export function cameraShape({
  camera,
  prefix,
  frames,
  newest,
  said,
}: StrikeCheck['cameras'][number]): contract.StrikeCamera {
  return {
    ...{ camera, prefix, frames, newest },
    said:
      said === null
        ? null
        : { counter: said.counter, by: said.by, how: said.how, at: epochMsToRfc3339(said.atMs) },
  };
}

function shotShape(
  { lines: _lines, chosen, ...shot }: StrikeShot,
  open: readonly StrikeLine[],
): contract.StrikeShot {
  return {
    ...shot,
    chosen: chosen.map((frame) => ({
      ...frame,
      verdicts: frame.verdicts.map((verdict) => ({ ...verdict })),
    })),
    open: open.filter((line) => line.shot === shot.id).length,
  };
}

export function lineShape(line: StrikeLine): contract.StrikeLine {
  const { finding, because } = line;
  return {
    ...line,
    finding: { code: finding.code, args: { ...finding.args } },
    because: because === null ? null : { code: because.code, args: { ...because.args } },
  };
}
