import { job, newScale } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders } from './if-match.ts';
import { jobAnswer, patchBy } from './job-routes.ts';
import { shotParams } from './shot-routes.ts';

const problems = ['job-finished', 'version-changed', 'not-found'] as const;

/** How large things are in the pictures of a shot. */
export function scaleRoutes(app: WebApp, desk: StationDesk): void {
  app.put(
    '/api/v1/jobs/:job/shots/:shot/scale',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'setScale',
        summary:
          'Says how large things are in the shot’s pictures, by two points or the target in one of its frames',
        params: shotParams,
        headers: ifMatchHeaders,
        body: newScale,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers('bad-value', 'bad-scale', 'no-frame', 'target-not-read', 'not-json', ...problems),
        },
      },
    },
    async (request, reply) => {
      const { job: code, shot } = request.params;
      return jobAnswer(reply, await desk.setScale(code, shot, request.body, patchBy(request)));
    },
  );
  app.delete(
    '/api/v1/jobs/:job/shots/:shot/scale',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'scaleGone',
        summary: 'Nobody says how large things are in the shot’s pictures any more',
        params: shotParams,
        headers: ifMatchHeaders,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers('bad-value', ...problems),
        },
      },
    },
    async (request, reply) =>
      jobAnswer(reply, await desk.scaleGone(request.params.job, request.params.shot, patchBy(request))),
  );
}
