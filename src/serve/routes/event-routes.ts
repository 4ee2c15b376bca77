import { z } from 'zod';
import { stationEvent } from '../../contract/index.ts';
import { problemAnswers } from '../answers.ts';
import type { EventStreams } from '../event-streams.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';

/** Of any form: an id that is not ours is answered with `resync`, where a refusal would end the browser's attempts. */
const lastEventId = z.string().optional();

/**
 * Every listener hears what is theirs (`core/event-for.ts`); `line` events carry the station without passwords even for
 * the operator, since the log remembers them.
 */
export function eventRoutes(app: WebApp, streams: EventStreams): void {
  app.get(
    '/api/v1/events',
    {
      // The automatic answer to HEAD would open a stream and drain it for ever.
      exposeHeadRoute: false,
      schema: {
        tags: ['events'],
        operationId: 'getEvents',
        summary: 'Server-sent events, resumable; open the stream first, then load what it is about',
        headers: z.object({ 'last-event-id': lastEventId }),
        querystring: z.object({ 'last-event-id': lastEventId.describe('Where the header cannot be set') }),
        response: {
          200: {
            description: 'Events named after their `type`; the data of each is a StationEvent',
            // Widened: it describes each event's data, while what is sent is the stream of their text.
            content: { 'text/event-stream': { schema: stationEvent as z.ZodType } },
          },
          ...problemAnswers('too-many-streams'),
        },
      },
    },
    (request, reply) => {
      // After a broken line a browser sends the header and still has the old value in the address.
      const id = request.headers['last-event-id'] ?? request.query['last-event-id'];
      return reply.type('text/event-stream').send(streams.open(id, callerOf(request)));
    },
  );
}
