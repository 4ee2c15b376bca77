import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { type Strike, strike, strikeExplained, strikeNumber, strikeSignature } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders, withVersion } from './if-match.ts';
import { jobParams, noSuchJob, patchBy } from './job-routes.ts';
import { shortName } from './path-values.ts';

const problems = ['bad-value', 'job-finished', 'version-changed', 'not-found'] as const;
const answer = jsonAnswer('The check after the change', strike);
const numberParams = jobParams.extend({ camera: shortName });

/** May the set come down, and what people say for it. */
export function strikeRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/strike',
    {
      schema: {
        tags: ['strike'],
        operationId: 'strikeCheck',
        summary: 'What is missing before the set may come down, worst first',
        querystring: z.strictObject({
          job: shortName.optional().describe('Code of a job; the open one where left out'),
        }),
        response: { 200: jsonAnswer('The check', strike), ...problemAnswers('bad-value', 'not-found') },
      },
    },
    async (request, reply) => strikeAnswer(reply, await desk.strike(request.query.job ?? null)),
  );
  numberRoutes(app, desk);
  explainedRoutes(app, desk);
  signatureRoutes(app, desk);
}

function numberRoutes(app: WebApp, desk: StationDesk): void {
  app.put(
    '/api/v1/jobs/:job/strike/numbers/:camera',
    {
      schema: {
        tags: ['strike'],
        operationId: 'setLastNumber',
        summary: 'Says the number of the last frame as the camera shows it',
        params: numberParams,
        headers: ifMatchHeaders,
        body: strikeNumber,
        response: { 200: answer, ...problemAnswers('no-such-numbers', 'not-json', ...problems) },
      },
    },
    async (request, reply) => {
      const { job, camera } = request.params;
      return strikeAnswer(reply, await desk.setLastNumber(job, camera, request.body, patchBy(request)));
    },
  );
  app.delete(
    '/api/v1/jobs/:job/strike/numbers/:camera',
    {
      schema: {
        tags: ['strike'],
        operationId: 'lastNumberGone',
        summary: 'Nobody says the camera’s last number any more',
        params: numberParams,
        querystring: z.strictObject({ prefix: z.string().max(4).optional() }),
        headers: ifMatchHeaders,
        response: { 200: answer, ...problemAnswers('no-such-numbers', ...problems) },
      },
    },
    async (request, reply) => {
      const { job, camera } = request.params;
      return strikeAnswer(
        reply,
        await desk.lastNumberGone(job, camera, request.query.prefix, patchBy(request)),
      );
    },
  );
}

function explainedRoutes(app: WebApp, desk: StationDesk): void {
  app.post(
    '/api/v1/jobs/:job/strike/explained',
    {
      schema: {
        tags: ['strike'],
        operationId: 'explainLine',
        summary: 'Somebody takes a line of the check upon themselves, by name and with a reason',
        params: jobParams,
        headers: ifMatchHeaders,
        body: strikeExplained,
        response: { 200: answer, ...problemAnswers('no-such-line', 'not-json', ...problems) },
      },
    },
    async (request, reply) =>
      strikeAnswer(reply, await desk.explainLine(request.params.job, request.body, patchBy(request))),
  );
  app.delete(
    '/api/v1/jobs/:job/strike/explained',
    {
      schema: {
        tags: ['strike'],
        operationId: 'lineUnexplained',
        summary: 'Takes that back',
        params: jobParams,
        querystring: z.strictObject({ line: z.string().min(1).max(400).describe('Its `key`') }),
        headers: ifMatchHeaders,
        response: { 200: answer, ...problemAnswers(...problems) },
      },
    },
    async (request, reply) =>
      strikeAnswer(
        reply,
        await desk.lineUnexplained(request.params.job, request.query.line, patchBy(request)),
      ),
  );
}

function signatureRoutes(app: WebApp, desk: StationDesk): void {
  app.put(
    '/api/v1/jobs/:job/strike/signature',
    {
      schema: {
        tags: ['strike'],
        operationId: 'signStrike',
        summary: 'Somebody signs the check as they saw it; later changes reopen it',
        params: jobParams,
        headers: ifMatchHeaders,
        body: strikeSignature,
        response: {
          200: answer,
          ...problemAnswers('strike-not-ready', 'strike-changed', 'not-json', ...problems),
        },
      },
    },
    async (request, reply) =>
      strikeAnswer(reply, await desk.sign(request.params.job, request.body, patchBy(request))),
  );
  app.delete(
    '/api/v1/jobs/:job/strike/signature',
    {
      schema: {
        tags: ['strike'],
        operationId: 'signatureGone',
        summary: 'Takes the signature back',
        params: jobParams,
        headers: ifMatchHeaders,
        response: { 200: answer, ...problemAnswers(...problems) },
      },
    },
    async (request, reply) =>
      strikeAnswer(reply, await desk.signatureGone(request.params.job, patchBy(request))),
  );
}

/** The check with the job's version, or 404. */
function strikeAnswer(reply: FastifyReply, found: Strike | null): Strike {
  if (found === null) throw noSuchJob();
  return withVersion(reply, found);
}
