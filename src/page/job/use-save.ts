import { type Dispatch, useCallback } from 'react';
import type { Job } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { wordsOf } from '../link/index.ts';
import type { PageAction } from '../state/index.ts';

/** Makes a change; settles with why it was not taken, empty where it was. */
export type Save = (call: () => Promise<Job>) => Promise<string>;

/** Changes whose answer is the job as it is now: the page knows it before its event comes. */
export function useSave(dispatch: Dispatch<PageAction>): Save {
  return useCallback(
    async (call) => {
      try {
        const job = await call();
        dispatch({ type: 'event', event: { type: 'job', code: job.code, job } });
        return '';
      } catch (thrown) {
        return wordsOf(thrown, pageLabels.notTaken);
      }
    },
    [dispatch],
  );
}
