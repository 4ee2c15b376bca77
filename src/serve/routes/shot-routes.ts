import { job, newBaseline, newShot, shotOrder, shotPatch } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders } from './if-match.ts';
import { changeProblems, jobAnswer, jobParams, patchBy } from './job-routes.ts';
import { codeOrId } from './path-values.ts';

export const shotParams = jobParams.extend({ shot: codeOrId.describe('Id of the shot') });

export function shotRoutes(app: WebApp, desk: StationDesk): void {
  app.post(
    '/api/v1/jobs/:job/shots',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'addShot',
        summary: 'Adds a shot at the end of the list',
        params: jobParams,
        headers: ifMatchHeaders,
        body: newShot,
        response: {
          201: jsonAnswer('The job after the change', job),
          ...problemAnswers(...changeProblems, 'no-frame', 'too-many-shots', 'not-found', 'not-json'),
        },
      },
    },
    async (request, reply) => {
      const changed = await desk.addShot(request.params.job, request.body, patchBy(request));
      return reply.code(201).send(jobAnswer(reply, changed));
    },
  );
  app.patch(
    '/api/v1/jobs/:job/shots/:shot',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'patchShot',
        summary: 'Changes a shot',
        params: shotParams,
        headers: ifMatchHeaders,
        body: shotPatch,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers(...changeProblems, 'no-frame', 'bad-order', 'not-found', 'not-json'),
        },
      },
    },
    async (request, reply) =>
      jobAnswer(
        reply,
        await desk.patchShot(request.params.job, request.params.shot, request.body, patchBy(request)),
      ),
  );
  app.delete(
    '/api/v1/jobs/:job/shots/:shot',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'removeShot',
        summary: 'Takes a shot from the list; one with frames is hidden, and its frames stay with it',
        params: shotParams,
        headers: ifMatchHeaders,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers('job-finished', 'version-changed', 'not-found'),
        },
      },
    },
    async (request, reply) =>
      jobAnswer(reply, await desk.removeShot(request.params.job, request.params.shot, patchBy(request))),
  );
  app.post(
    '/api/v1/jobs/:job/shots/:shot/back',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'bringShotBack',
        summary: 'Lists a shot again that was taken from the list while it had frames',
        params: shotParams,
        headers: ifMatchHeaders,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers('job-finished', 'version-changed', 'not-found'),
        },
      },
    },
    async (request, reply) =>
      jobAnswer(reply, await desk.bringShotBack(request.params.job, request.params.shot, patchBy(request))),
  );
  app.put(
    '/api/v1/jobs/:job/order',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'orderShots',
        summary: 'Puts the shots in order',
        params: jobParams,
        headers: ifMatchHeaders,
        body: shotOrder,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers(
            'bad-value',
            'bad-order',
            'job-finished',
            'version-changed',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) =>
      jobAnswer(reply, await desk.orderShots(request.params.job, request.body.shots, patchBy(request))),
  );
  app.post(
    '/api/v1/jobs/:job/shots/:shot/baseline',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'setBaseline',
        summary: 'From this frame’s moment on, frames of the shot are held against it',
        params: shotParams,
        headers: ifMatchHeaders,
        body: newBaseline,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers(
            'bad-value',
            'no-frame',
            'too-many-baselines',
            'job-finished',
            'version-changed',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const { job: code, shot } = request.params;
      return jobAnswer(reply, await desk.setBaseline(code, shot, request.body.frame, patchBy(request)));
    },
  );
  app.delete(
    '/api/v1/jobs/:job/shots/:shot/baseline/:frame',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'removeBaseline',
        summary: 'Frames of the shot are held against this one no more',
        params: shotParams.extend({ frame: codeOrId.describe('Id of the frame') }),
        headers: ifMatchHeaders,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers('job-finished', 'version-changed', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { job: code, shot, frame } = request.params;
      return jobAnswer(reply, await desk.removeBaseline(code, shot, frame, patchBy(request)));
    },
  );
}
