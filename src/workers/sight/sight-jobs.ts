import { checkPicture } from './check-picture.ts';
import { look } from './look.ts';
import type { SightAnswer, SightTask } from './messages.ts';

/** Does a job, in whatever thread this is called. */
export function runSightTask(task: SightTask): Promise<SightAnswer> {
  return task.name === 'look' ? look(task.job) : checkPicture(task.job);
}
