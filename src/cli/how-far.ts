import { type JobBoard, type JobStage, whereIs } from '../workers/index.ts';

/** Nothing is said of a job that nobody told anything of. */
const stages: Readonly<Record<JobStage, string>> = {
  waiting: '',
  reading: 'reading it',
  rendering: 'making the picture',
  writing: 'writing it',
};

/** How far a rendering is, for a line that is written over. */
export function howFar(board: JobBoard): string {
  const { stage, share } = whereIs(board);
  return stage === 'rendering' && share > 0 ? `${stages[stage]} ${Math.floor(100 * share)} %` : stages[stage];
}
