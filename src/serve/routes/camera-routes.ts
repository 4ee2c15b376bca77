import { z } from 'zod';
import { cameraEntry, cameraPatch } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { shortName } from './path-values.ts';

export function cameraRoutes(app: WebApp, desk: StationDesk): void {
  app.patch(
    '/api/v1/cameras/:camera',
    {
      schema: {
        tags: ['station'],
        operationId: 'patchCamera',
        summary: 'Says what a camera is set to send, or that it is not shooting now',
        params: z.object({ camera: shortName.describe('Name of the camera') }),
        body: cameraPatch,
        response: {
          200: jsonAnswer('The camera after the change', cameraEntry),
          ...problemAnswers('bad-value', 'not-found', 'not-json'),
        },
      },
    },
    async (request) => {
      const camera = await desk.patchCamera(request.params.camera, request.body, callerOf(request));
      if (camera === null) throw new Refusal('not-found', 'There is no camera of this name.');
      return camera;
    },
  );
}
