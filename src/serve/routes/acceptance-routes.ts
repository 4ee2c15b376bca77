import { z } from 'zod';
import { frame, newAcceptance } from '../../contract/index.ts';
import { questions } from '../../facts/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';
import { frameAnswer } from './frame-routes.ts';
import { ifMatchHeaders } from './if-match.ts';
import { patchBy } from './job-routes.ts';
import { id } from './path-values.ts';

const params = z.object({ id, question: z.enum(questions) });

export function acceptanceRoutes(app: WebApp, desk: StationDesk): void {
  app.put(
    '/api/v1/frames/:id/acceptances/:question',
    {
      schema: {
        tags: ['frames'],
        operationId: 'acceptVerdict',
        summary: 'Somebody takes a verdict that is not good upon themselves, by name and with a reason',
        params,
        headers: ifMatchHeaders,
        body: newAcceptance,
        response: {
          200: jsonAnswer('The frame after the change', frame),
          ...problemAnswers(
            'bad-value',
            'verdict-is-good',
            'version-changed',
            'changed-meanwhile',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const { id: frameId, question } = request.params;
      return frameAnswer(reply, await desk.accept(frameId, question, request.body, patchBy(request)));
    },
  );
  app.delete(
    '/api/v1/frames/:id/acceptances/:question',
    {
      schema: {
        tags: ['frames'],
        operationId: 'withdrawAcceptance',
        summary: 'Takes an acceptance back',
        params,
        headers: ifMatchHeaders,
        response: {
          200: jsonAnswer('The frame after the change', frame),
          ...problemAnswers('version-changed', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { id: frameId, question } = request.params;
      return frameAnswer(reply, await desk.accept(frameId, question, null, patchBy(request)));
    },
  );
}
