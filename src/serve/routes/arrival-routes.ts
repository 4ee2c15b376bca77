import { z } from 'zod';
import { brokenArrivalList } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { id } from './path-values.ts';

export function arrivalRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/arrivals',
    {
      schema: {
        tags: ['arrivals'],
        operationId: 'listBrokenArrivals',
        summary: 'Files that broke off and can be resumed or sent again',
        response: { 200: jsonAnswer('Those files, oldest first', brokenArrivalList), ...problemAnswers() },
      },
    },
    async () => ({ arrivals: [...(await desk.brokenArrivals())] }),
  );
  app.delete(
    '/api/v1/arrivals/:id',
    {
      schema: {
        tags: ['arrivals'],
        operationId: 'letArrivalGo',
        summary: 'Gives up a file that broke off; what was acknowledged is never touched',
        params: z.object({ id }),
        response: {
          204: z.undefined().describe('It is given up'),
          ...problemAnswers('not-found', 'still-arriving'),
        },
      },
    },
    async (request, reply) => {
      const gone = await desk.letGo(request.params.id, callerOf(request));
      if (!gone) throw new Refusal('not-found', 'No file of this id is broken off.');
      return reply.code(204).send();
    },
  );
}
