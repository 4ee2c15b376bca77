import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  framesTakenIn,
  framesToTakeIn,
  type Job,
  job,
  jobList,
  jobPatch,
  newJob,
  seriesList,
} from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { PatchBy } from '../job-calls.ts';
import { assertSheetText } from '../sheet-or-refuse.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders, versionsIn, withVersion } from './if-match.ts';
import { codeOrId } from './path-values.ts';

export const jobParams = z.object({ job: codeOrId.describe('Code of the job') });

/** What every change of a job may be refused with. */
export const changeProblems = [
  'bad-value',
  'bad-words',
  'bad-tolerance',
  'job-finished',
  'version-changed',
] as const;

export function jobRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/jobs',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'listJobs',
        summary: 'Every job with its shots, the newest opened first',
        response: { 200: jsonAnswer('The jobs', jobList), ...problemAnswers() },
      },
    },
    async () => ({ jobs: [...(await desk.jobs())] }),
  );
  app.post(
    '/api/v1/jobs',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'makeJob',
        summary: 'Makes a job, as a copy of an earlier one if wanted',
        body: newJob,
        response: {
          201: jsonAnswer('The job', job),
          ...problemAnswers(
            'bad-value',
            'bad-job-code',
            'job-exists',
            'no-job',
            'bad-words',
            'bad-tolerance',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const made = await desk.makeJob(request.body, callerOf(request));
      return reply.code(201).send(withVersion(reply, made));
    },
  );
  app.get(
    '/api/v1/jobs/:job',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'getJob',
        summary: 'One job with its shots; `ETag` is its version, for `If-Match`',
        params: jobParams,
        response: { 200: jsonAnswer('The job', job), ...problemAnswers('not-found') },
      },
    },
    async (request, reply) => jobAnswer(reply, await desk.job(request.params.job)),
  );
  app.patch(
    '/api/v1/jobs/:job',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'patchJob',
        summary: 'Opens, lays aside or closes a job, or changes its words, limits or current shot',
        params: jobParams,
        headers: ifMatchHeaders,
        body: jobPatch,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers(
            ...changeProblems,
            'bad-metadata',
            'no-shot',
            'no-such-tolerance-set',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      assertSheetText(request.body.metadata);
      return jobAnswer(reply, await desk.patchJob(request.params.job, request.body, patchBy(request)));
    },
  );
  app.post(
    '/api/v1/jobs/:job/frames',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'takeFramesIn',
        summary: 'Moves frames of the tray, or of another job, to this one, all as one act',
        params: jobParams,
        body: framesToTakeIn,
        response: {
          200: jsonAnswer('How many were moved', framesTakenIn),
          ...problemAnswers(
            'bad-value',
            'no-frame',
            'no-shot',
            'job-finished',
            'act-taken-back',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request) => {
      const moved = await desk.takeIn(request.params.job, request.body, callerOf(request));
      if (moved === null) throw noSuchJob();
      return { moved };
    },
  );
  app.get(
    '/api/v1/jobs/:job/series',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'listSeries',
        summary: 'Bursts and brackets among the frames of a job',
        params: jobParams,
        response: { 200: jsonAnswer('The series', seriesList), ...problemAnswers('not-found') },
      },
    },
    async (request) => {
      const series = await desk.series(request.params.job);
      if (series === null) throw noSuchJob();
      return { series: [...series] };
    },
  );
}

/** The job with its version, or 404. */
export function jobAnswer(reply: FastifyReply, found: Job | null): Job {
  if (found === null) throw noSuchJob();
  return withVersion(reply, found);
}

export function noSuchJob(): Refusal {
  return new Refusal('not-found', 'There is no such job, or no such shot in it.');
}

/** Who changes what, and which version was seen. */
export function patchBy(
  request: FastifyRequest & { readonly headers: { readonly 'if-match'?: string | undefined } },
): PatchBy {
  return { who: callerOf(request), ifVersion: versionsIn(request.headers['if-match']) };
}
