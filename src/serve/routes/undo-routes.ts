import { act, actList, undo } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';

export function undoRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/undo',
    {
      schema: {
        tags: ['undo'],
        operationId: 'listActs',
        summary:
          'What was chosen since the start and can be taken back, and who did what else, the newest first',
        response: { 200: jsonAnswer('The acts', actList), ...problemAnswers() },
      },
    },
    async () => ({ acts: [...(await desk.acts())], told: [...(await desk.toldActs())] }),
  );
  app.post(
    '/api/v1/undo',
    {
      schema: {
        tags: ['undo'],
        operationId: 'undo',
        summary: 'Takes the newest act back, or the one named unless a later one changed the same',
        body: undo,
        response: {
          200: jsonAnswer('What was taken back', act),
          ...problemAnswers(
            'bad-value',
            'no-job',
            'no-shot',
            'nothing-to-undo',
            'undo-overtaken',
            'has-frames',
            'job-finished',
            'not-json',
          ),
        },
      },
    },
    (request) => desk.undo(request.body.act, callerOf(request)),
  );
  app.post(
    '/api/v1/undo/back',
    {
      schema: {
        tags: ['undo'],
        operationId: 'putBack',
        summary: 'Does again what was taken back last, as long as nothing else was done since',
        response: {
          200: jsonAnswer('What was put back', act),
          ...problemAnswers('no-job', 'no-shot', 'nothing-to-put-back', 'has-frames', 'job-finished'),
        },
      },
    },
    (request) => desk.putBack(callerOf(request)),
  );
}
