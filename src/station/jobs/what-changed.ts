import type * as contract from '../../contract/index.ts';
import type { Finding, FrameShare } from '../../facts/index.ts';
import { type FrameChoice, type Jobs, type Looks, trayCode } from '../../job/index.ts';
import { shotName } from '../../words/index.ts';
import { lookTitle } from '../looks/look-shape.ts';

/** What somebody did to a job, told as closely as the change can be: the person reads it beside "Undo". */
export function whatOfJob(jobs: Jobs, code: string, patch: contract.JobPatch): Finding {
  const [only, ...others] = Object.keys(patch);
  if (others.length === 0) {
    if (only === 'state' && patch.state !== undefined)
      return { code: `job.${stateCodes[patch.state]}`, args: { job: code } };
    if (only === 'currentShot') return whatOfCurrentShot(jobs, code, patch.currentShot ?? null);
    if (only === 'tolerances') return { code: 'job.limits-changed', args: { job: code } };
  }
  return { code: 'job.changed', args: { job: code } };
}

const stateCodes = { open: 'opened', waiting: 'laid-aside', closed: 'closed' } as const;

function whatOfCurrentShot(jobs: Jobs, code: string, shot: string | null): Finding {
  return shot === null
    ? { code: 'job.no-shot-current', args: { job: code } }
    : { code: 'job.shot-current', args: { job: code, shot: nameOfShot(jobs, code, shot) } };
}

/** What somebody chose of a frame: one thing by its own words, several at once by the frame's name alone. */
export function whatOfFrame(
  jobs: Jobs,
  looks: Looks,
  { name, job }: { readonly name: string; readonly job: string },
  choices: readonly FrameChoice[],
): Finding {
  const kinds = new Set(choices.map(({ type }) => (type === 'job-set' ? 'shot-set' : type)));
  const [only] = choices;
  if (only === undefined || kinds.size !== 1) return { code: 'job.frame-changed', args: { name } };
  switch (only.type) {
    case 'mark-set':
      return { code: 'job.frame-marked', args: { name, mark: only.mark } };
    case 'purpose-set':
      return { code: 'job.frame-purpose', args: { name, purpose: only.purpose } };
    case 'spot-set':
      return { code: only.spot === null ? 'job.frame-no-spot' : 'job.frame-spot', args: { name } };
    case 'look-set': {
      const look = only.look === null ? undefined : looks.get(only.look);
      if (look === undefined) return { code: 'job.frame-no-look', args: { name } };
      return { code: 'job.frame-look', args: { name, look: lookTitle(look) } };
    }
    case 'share-set':
      return { code: shareCodes[only.share ?? 'by-mark'], args: { name } };
    default:
      return whereTo(jobs, name, job, choices);
  }
}

const shareCodes: Readonly<Record<FrameShare | 'by-mark', string>> = {
  shown: 'job.frame-shown',
  'kept-back': 'job.frame-kept-back',
  'by-mark': 'job.frame-share-by-mark',
};

function whereTo(jobs: Jobs, name: string, from: string, choices: readonly FrameChoice[]): Finding {
  const job = choices.find((choice) => choice.type === 'job-set')?.job ?? from;
  const shot = choices.find((choice) => choice.type === 'shot-set')?.shot ?? null;
  if (shot !== null) return { code: 'job.frame-to-shot', args: { name, shot: nameOfShot(jobs, job, shot) } };
  if (job === from) return { code: 'job.frame-to-no-shot', args: { name } };
  return job === trayCode
    ? { code: 'job.frame-to-tray', args: { name } }
    : { code: 'job.frame-to-job', args: { name, job } };
}

/** Frames that were taken into a job, or from shot to shot where all are of it already; `count` with the parts before. */
export function whatOfFrames(
  jobs: Jobs,
  job: string,
  shot: string | null,
  moved: readonly { readonly name: string; readonly job: string }[],
  count: number,
): Finding {
  const [only] = moved;
  if (moved.some((frame) => frame.job !== job)) return { code: 'job.frames-taken-in', args: { job, count } };
  if (shot === null)
    return count === 1 && only !== undefined
      ? { code: 'job.frame-to-no-shot', args: { name: only.name } }
      : { code: 'job.frames-to-no-shot', args: { count } };
  const name = nameOfShot(jobs, job, shot);
  return count === 1 && only !== undefined
    ? { code: 'job.frame-to-shot', args: { name: only.name, shot: name } }
    : { code: 'job.frames-to-shot', args: { count, shot: name } };
}

/** The name people gave the shot, with its id where another has it too; the id where there is none of that id. */
export function nameOfShot(jobs: Jobs, code: string, id: string): string {
  const shots = jobs.get(code)?.shots ?? [];
  const shot = shots.find((each) => each.id === id);
  return shot === undefined ? id : shotName(shot, shots);
}
