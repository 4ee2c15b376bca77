import { z } from 'zod';
import { writeXmpRating } from '../../metadata/index.ts';
import { bytesAnswer, problemAnswers } from '../answers.ts';
import { attachmentDisposition } from '../core/attachment-name.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { id } from './path-values.ts';

/** How a frame is marked, as a file that other programs read. */
export function xmpRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames/:id/xmp',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getXmp',
        summary: 'The mark as an XMP sidecar (ISO 16684-1): `xmp:Rating` 5, 4, 2, -1 or 0, and nothing else',
        params: z.object({ id }),
        response: {
          200: bytesAnswer('The sidecar', 'application/rdf+xml'),
          ...problemAnswers('not-found'),
        },
      },
    },
    async (request, reply) => {
      const frame = await desk.frame(request.params.id);
      if (frame === null) throw new Refusal('not-found', 'There is no frame of this id.');
      const name = `${frame.name.replace(/\.[^.]*$/, '')}.xmp`;
      return reply
        .type('application/rdf+xml')
        .header('content-disposition', attachmentDisposition(name))
        .send(Buffer.from(writeXmpRating(frame.mark)));
    },
  );
}
