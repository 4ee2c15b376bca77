import { z } from 'zod';
import { job, newTarget } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders } from './if-match.ts';
import { jobAnswer, jobParams, patchBy } from './job-routes.ts';
import { codeOrId } from './path-values.ts';

const targetParams = jobParams.extend({ frame: codeOrId.describe('Id of the frame with the target') });
const problems = ['job-finished', 'version-changed', 'not-found'] as const;

/** Frames whose 24-patch target counts for those after them. */
export function targetRoutes(app: WebApp, desk: StationDesk): void {
  app.post(
    '/api/v1/jobs/:job/targets',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'newTarget',
        summary: 'From this frame’s moment on its target counts: frames of its camera are held against it',
        params: z.object({ job: jobParams.shape.job }),
        headers: ifMatchHeaders,
        body: newTarget,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers(
            'bad-value',
            'no-frame',
            'target-not-read',
            'too-many-targets',
            'not-json',
            ...problems,
          ),
        },
      },
    },
    async (request, reply) =>
      jobAnswer(reply, await desk.newTarget(request.params.job, request.body.frame, patchBy(request))),
  );
  app.delete(
    '/api/v1/jobs/:job/targets/:frame',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'targetGone',
        summary: 'The frame’s target counts no longer',
        params: targetParams,
        headers: ifMatchHeaders,
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers('bad-value', ...problems),
        },
      },
    },
    async (request, reply) => {
      const { job: code, frame } = request.params;
      return jobAnswer(reply, await desk.targetGone(code, frame, patchBy(request)));
    },
  );
}
