import type { FastifyRequest } from 'fastify';
import { lineRehearsal } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';

/** Enough to see a speed by, and no more than a phone sends in two seconds. */
export const rehearsalBytesMax: number = 4 * 1024 * 1024;
/** At a time: two would share the line and tell both the half. */
const atOnceMax = 1;

/** A test of the way by a device with a link. Its bytes are counted and forgotten: they are no camera's. */
export function rehearsalRoutes(app: WebApp, desk: StationDesk): void {
  const begun = new WeakMap<FastifyRequest, number>();
  let under = 0;
  app.post(
    '/api/v1/line/rehearsal',
    {
      bodyLimit: rehearsalBytesMax,
      onRequest: async (request, reply) => {
        if (under >= atOnceMax) throw new Refusal('busy', 'Another device is trying the way just now.');
        under += 1;
        let isOver = false;
        // The one comes after an answer, the other where the device has gone.
        for (const end of ['finish', 'close']) {
          reply.raw.once(end, () => {
            if (!isOver) under -= 1;
            isOver = true;
          });
        }
        begun.set(request, performance.now());
      },
      schema: {
        tags: ['station'],
        operationId: 'rehearseLine',
        summary: 'Tries the way to the station with bytes that are thrown away',
        description:
          'The body is anything, 4 MiB at most, as application/octet-stream; one device at a time.',
        consumes: ['application/octet-stream'],
        response: {
          200: jsonAnswer('What that says about the cameras’ way', lineRehearsal),
          ...problemAnswers('too-large', 'busy', 'bad-value'),
        },
      },
    },
    async (request) => {
      const ms = performance.now() - (begun.get(request) ?? performance.now());
      const bytes = request.body instanceof Uint8Array ? request.body.length : 0;
      if (bytes === 0) throw new Refusal('bad-value', 'expected bytes to measure, got none');
      const { remoteAddress: from = '', localAddress: reached = '' } = request.raw.socket;
      return desk.rehearsed({ from, reached, bytes, ms });
    },
  );
}
