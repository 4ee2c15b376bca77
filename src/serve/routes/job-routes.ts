import { z } from 'zod';
import { jobList, jobSummary } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { shortName } from './path-values.ts';

export function jobRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/jobs',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'listJobs',
        summary: 'Every job',
        response: { 200: jsonAnswer('The jobs', jobList), ...problemAnswers() },
      },
    },
    async () => ({ jobs: [...(await desk.jobs())] }),
  );
  app.get(
    '/api/v1/jobs/:job',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'getJob',
        summary: 'One job with its shots',
        params: z.object({ job: shortName.describe('Code of the job') }),
        response: { 200: jsonAnswer('The job', jobSummary), ...problemAnswers('not-found') },
      },
    },
    async (request) => {
      const job = await desk.job(request.params.job);
      if (job === null) throw new Refusal('not-found', 'There is no job of this code.');
      return job;
    },
  );
}
