import { clientScreen, clientScreenChange, clientScreenList } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';

/** What the client is shown. */
export function clientRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/client',
    {
      schema: {
        tags: ['client'],
        operationId: 'clientScreens',
        summary: 'What the client of each job is shown; of a job that is not listed, the newest picture',
        response: { 200: jsonAnswer('The screens', clientScreenList), ...problemAnswers() },
      },
    },
    async () => ({ screens: [...(await desk.clientScreens())] }),
  );
  app.put(
    '/api/v1/client',
    {
      schema: {
        tags: ['client'],
        operationId: 'showClient',
        summary: 'Says what the client of a job is shown, until the station stops',
        body: clientScreenChange,
        response: {
          200: jsonAnswer('The screen after it', clientScreen),
          ...problemAnswers('bad-value', 'no-job', 'no-frame', 'not-for-the-client', 'not-json'),
        },
      },
    },
    async (request) => desk.showClient(request.body),
  );
}
