import { type Dispatch, useCallback, useRef } from 'react';
import type { Job } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { wordsOf } from '../link/index.ts';
import type { PageAction } from '../state/index.ts';

/** Makes a change to the job as it is given; settles with why it was not taken, empty where it was. */
export type Save = (call: (now: Job) => Promise<Job>) => Promise<string>;

/**
 * Changes of one job, one after the other: who leaves two fields quickly has not seen the version that the first one makes, and
 * must not be told that somebody else did. The answer is the job as it is now: the page knows it before its event comes.
 */
export function useSave(job: Job, dispatch: Dispatch<PageAction>): Save {
  const now = useRef(job);
  if (job.version > now.current.version) now.current = job;
  const turn = useRef<Promise<unknown>>(Promise.resolve());
  return useCallback(
    (call) => {
      const done = turn.current.then(async () => {
        try {
          const changed = await call(now.current);
          if (changed.version > now.current.version) now.current = changed;
          dispatch({ type: 'event', event: { type: 'job', code: changed.code, job: changed } });
          return '';
        } catch (thrown) {
          return wordsOf(thrown, pageLabels.notTaken);
        }
      });
      turn.current = done;
      return done;
    },
    [dispatch],
  );
}
