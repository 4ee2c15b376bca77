import { z } from 'zod';
import { frameReadings } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { id } from './path-values.ts';

/** Maps and plots: too large for every event, and looked at one frame at a time. */
export function readingRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames/:id/readings',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getReadings',
        summary:
          'What was read in the frame’s pixels: sharpness by tile, an edge, light by stops, lost light, drift',
        params: z.object({ id }),
        response: { 200: jsonAnswer('The readings', frameReadings), ...problemAnswers('not-found') },
      },
    },
    async (request) => {
      const readings = await desk.readings(request.params.id);
      if (readings === null) throw new Refusal('not-found', 'There is no frame of this id.');
      return readings;
    },
  );
}
