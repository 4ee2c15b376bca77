import { z } from 'zod';
import {
  destination,
  destinationList,
  destinationName,
  destinationTest,
  putDestination,
} from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import { callerGone } from '../caller-gone.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';

const params = z.object({ destination: destinationName });

/** Where deliveries are sent. Secrets come in and never go out. */
export function destinationRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/destinations',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'listDestinations',
        summary: 'Where deliveries can be sent; without secrets',
        response: {
          200: jsonAnswer('The destinations', destinationList),
          ...problemAnswers('operator-only'),
        },
      },
    },
    async () => ({ destinations: [...(await desk.destinations())] }),
  );
  app.put(
    '/api/v1/destinations/:destination',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'putDestination',
        summary:
          'Makes or changes a destination. A secret is kept and never answered; one that comes from the environment or a program is named at the command line only',
        params,
        body: putDestination,
        response: {
          200: jsonAnswer('The destination after the change', destination),
          201: jsonAnswer('The new destination', destination),
          ...problemAnswers(
            'bad-value',
            'operator-only',
            'bad-destination',
            'no-destination',
            'destination-there',
            'destination-busy',
            'too-many-destinations',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const { place, secret, name } = request.body;
      const put = await desk.putDestination(request.params.destination, place, secret, name);
      return reply.code(put.isNew ? 201 : 200).send(put.destination);
    },
  );
  app.delete(
    '/api/v1/destinations/:destination',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'forgetDestination',
        summary: 'Forgets a destination and its secret; what was sent there stays there',
        params,
        response: {
          204: z.undefined().describe('It is forgotten'),
          ...problemAnswers('operator-only', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      if (!(await desk.forgetDestination(request.params.destination))) throw notFound();
      return reply.code(204).send();
    },
  );
  app.post(
    '/api/v1/destinations/:destination/test',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'testDestination',
        summary: 'Sends a small file there, reads it back and takes it away again',
        params,
        response: {
          200: jsonAnswer('What came of it', destinationTest),
          ...problemAnswers('operator-only', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const tested = await desk.testDestination(request.params.destination, callerGone(reply));
      if (tested === null) throw notFound();
      return tested;
    },
  );
}

function notFound(): Refusal {
  return new Refusal(
    'not-found',
    'There is no destination of this name. GET /api/v1/destinations lists those that are.',
  );
}
