import { expect, test } from 'vitest';
import { planNewJob } from '../job/index.ts';
import { closeDemoJob, demoJob } from './demo-job.ts';
import { JobBook } from './jobs/job-book.ts';

test.each([
  { whose: 'the demo’s own', title: demoJob.title, client: demoJob.client, after: undefined },
  { whose: 'somebody’s, of the same code', title: 'Winter glazes', client: '', after: demoJob.code },
])(
  'after a demo that was killed, $whose job that is open: $after is open',
  async ({ title, client, after }) => {
    const jobs = await JobBook.load(
      { appendTogether: async () => [] },
      { jobs: async () => [] },
      { code: '' },
    );
    await jobs.choose(planNewJob(jobs.jobs(), { code: demoJob.code, title, client }), null);
    await jobs.choose([{ type: 'job-state-set', job: demoJob.code, state: 'open' }], null);
    await closeDemoJob(jobs);
    expect(jobs.open()?.code).toBe(after);
  },
);
