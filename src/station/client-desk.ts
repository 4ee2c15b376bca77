import { SetsideError } from '../base/index.ts';
import { type ClientScreen, plainClientScreen } from '../contract/index.ts';
import { isForTheClient } from '../facts/index.ts';
import { trayCode } from '../job/index.ts';
import type { ClientCalls, EventLog } from '../serve/index.ts';
import type { FrameBook } from './frame-book.ts';
import type { JobBook } from './jobs/job-book.ts';

export interface ClientDeskOptions {
  readonly book: Pick<FrameBook, 'frame'>;
  readonly jobs: Pick<JobBook, 'job'>;
  readonly events: Pick<EventLog, 'publish'>;
}

/**
 * What the client of each job is shown. It is held for each job alone, so that no client sees the picture of another, and in memory
 * only: it is where a finger points, not a choice about the pictures.
 */
export function createClientDesk({ book, jobs, events }: ClientDeskOptions): ClientCalls {
  const screens = new Map<string, ClientScreen>();
  return {
    clientScreens: () => Promise.all([...screens.values()].map((screen) => asItMayBeSeen(book, screen))),
    showClient: async ({ job, frame, crop, copySpace }) => {
      if (job !== trayCode && jobs.job(job) === null)
        throw new SetsideError('no-job', `there is no job ${job}`);
      if (frame !== undefined && frame !== null) await assertForTheClient(book, job, frame);
      const before = screens.get(job) ?? plainClientScreen(job);
      const screen: ClientScreen = {
        job,
        frame: frame === undefined ? before.frame : frame,
        crop: crop === undefined ? before.crop : crop,
        copySpace: copySpace === undefined ? before.copySpace : copySpace,
      };
      screens.set(job, screen);
      events.publish({ type: 'client', screen });
      return screen;
    },
  };
}

/** A frame that went to another job, or was put aside since, is held no longer. */
async function asItMayBeSeen(book: ClientDeskOptions['book'], screen: ClientScreen): Promise<ClientScreen> {
  if (screen.frame === null) return screen;
  const frame = await book.frame(screen.frame);
  const may = frame !== null && frame.job === screen.job && isForTheClient(frame);
  return may ? screen : { ...screen, frame: null };
}

async function assertForTheClient(book: ClientDeskOptions['book'], job: string, id: string): Promise<void> {
  const frame = await book.frame(id);
  if (frame === null || frame.job !== job)
    throw new SetsideError('no-frame', `there is no frame ${id} in job ${job}`);
  if (!isForTheClient(frame)) throw new SetsideError('not-for-the-client', `frame ${id} is not to be shown`);
}
