import type { JobChoice, Jobs, Shot } from '../../job/index.ts';

/** Whether frames that are told already have other verdicts, or another look, after these choices; `jobs` as they were before. */
export function judgesAnew(jobs: Jobs, choices: readonly JobChoice[]): boolean {
  return choices.some((choice) => {
    switch (choice.type) {
      case 'job-tolerances-set':
      case 'job-colour-set':
      case 'job-targets-set':
      case 'job-scales-set':
        return true;
      case 'job-hand-over-set': {
        const before = jobs.get(choice.job)?.handOver;
        return before?.look !== choice.look || before.lookId !== choice.lookId;
      }
      case 'shot-stated': {
        const before = jobs.get(choice.job)?.shots.find(({ id }) => id === choice.shot.id);
        return before !== undefined && judgedBy(before) !== judgedBy(choice.shot);
      }
      default:
        return false;
    }
  });
}

/** What of a shot its frames are judged and shown by. */
function judgedBy(shot: Shot): string {
  const { reference, layout, baselines, tolerances, requires, mutes, look, lookId } = shot;
  return JSON.stringify([reference, layout, baselines, tolerances, requires, mutes, look, lookId]);
}
