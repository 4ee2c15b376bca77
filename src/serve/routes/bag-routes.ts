import { bagDesk, bagWork, newBag, newBagCheck } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';

/** Archive packages (RFC 8493) made of jobs, and read again. */
export function bagRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/bags',
    {
      schema: {
        tags: ['bags'],
        operationId: 'getBags',
        summary: 'Where bags may be made and checked, those that lie there, and how the last one went',
        response: { 200: jsonAnswer('Places and bags', bagDesk), ...problemAnswers() },
      },
    },
    () => desk.bags(),
  );
  app.post(
    '/api/v1/bags',
    {
      schema: {
        tags: ['bags'],
        operationId: 'makeBag',
        summary: 'Begins to pack a job into a bag, or goes on with one that was broken off',
        body: newBag,
        response: {
          202: jsonAnswer('The bag as it begins', bagWork),
          ...problemAnswers('bad-value', 'bag-not-allowed', 'no-job', 'bag-busy', 'not-json'),
        },
      },
    },
    async (request, reply) => reply.code(202).send(await desk.makeBag(request.body.job, request.body.folder)),
  );
  app.post(
    '/api/v1/bags/check',
    {
      schema: {
        tags: ['bags'],
        operationId: 'checkBag',
        summary: 'Begins to read every file of a bag again, whoever made it; changes nothing',
        body: newBagCheck,
        response: {
          202: jsonAnswer('The check as it begins', bagWork),
          ...problemAnswers('bad-value', 'bag-not-allowed', 'bag-busy', 'not-json'),
        },
      },
    },
    async (request, reply) => reply.code(202).send(await desk.checkBag(request.body.folder)),
  );
  app.delete(
    '/api/v1/bags',
    {
      schema: {
        tags: ['bags'],
        operationId: 'stopBag',
        summary: 'Ends what goes on; what was written stays, and making it again goes on',
        response: { 200: jsonAnswer('As it ended', bagWork), ...problemAnswers('not-found') },
      },
    },
    async () => {
      const ended = await desk.stopBag();
      if (ended === null) throw new Refusal('not-found', 'no bag was made or checked');
      return ended;
    },
  );
}
