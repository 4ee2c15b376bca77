import { putBackAnswer, putBackWish, verification, verificationWish } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import type { WebApp } from '../web-app.ts';

/** Reading every original and every copy again. */
export function verificationRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/verification',
    {
      schema: {
        tags: ['verification'],
        operationId: 'getVerification',
        summary: 'When originals and copies were read last, how far a reading is, and when the next is due',
        response: { 200: jsonAnswer('The reading', verification), ...problemAnswers() },
      },
    },
    () => desk.verification(),
  );
  app.put(
    '/api/v1/verification',
    {
      schema: {
        tags: ['verification'],
        operationId: 'setVerification',
        summary: 'Reads every original and copy now, or lets it rest',
        body: verificationWish,
        response: {
          200: jsonAnswer('The reading', verification),
          ...problemAnswers('bad-value', 'not-json'),
        },
      },
    },
    (request) => desk.setVerification(request.body.state),
  );
  app.post(
    '/api/v1/originals/put-back',
    {
      schema: {
        tags: ['verification'],
        operationId: 'putOriginalsBack',
        summary:
          'Puts originals back from a second place; what lies under their names is set aside, not deleted',
        body: putBackWish,
        response: {
          200: jsonAnswer('What became of each', putBackAnswer),
          ...problemAnswers('bad-value', 'not-json', 'no-original'),
        },
      },
    },
    (request) => desk.putOriginalsBack(request.body.originals ?? null),
  );
}
