import { cardCheck, cardDesk, cardTakeIn, newCardCheck, newCardOutcome } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';

/** Memory cards held against what is here. */
export function cardRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/cards',
    {
      schema: {
        tags: ['cards'],
        operationId: 'getCards',
        summary: 'Folders that may be checked as cards, and how the last check went',
        response: { 200: jsonAnswer('Folders and check', cardDesk), ...problemAnswers() },
      },
    },
    () => desk.cards(),
  );
  app.post(
    '/api/v1/cards',
    {
      schema: {
        tags: ['cards'],
        operationId: 'checkCard',
        summary: 'Begins to check a card: every file is read, and looked for among originals and copies',
        body: newCardCheck,
        response: {
          202: jsonAnswer('The check as it begins', cardCheck),
          ...problemAnswers('bad-value', 'card-not-allowed', 'no-card', 'card-busy', 'not-json'),
        },
      },
    },
    async (request, reply) => reply.code(202).send(await desk.checkCard(request.body.folder)),
  );
  app.post(
    '/api/v1/cards/outcome',
    {
      schema: {
        tags: ['cards'],
        operationId: 'tellCard',
        summary: 'Takes over what the command `setside card` found, so that page and strike check know it',
        body: newCardOutcome,
        response: {
          200: jsonAnswer('The check as it is told', cardCheck),
          ...problemAnswers('bad-value', 'not-json'),
        },
      },
    },
    (request) => desk.tellCard(request.body),
  );
  app.delete(
    '/api/v1/cards',
    {
      schema: {
        tags: ['cards'],
        operationId: 'stopCard',
        summary: 'Ends the check or the taking in that goes on; what was taken in stays',
        response: { 200: jsonAnswer('The check as it ended', cardCheck), ...problemAnswers('not-found') },
      },
    },
    async () => {
      const ended = await desk.stopCard();
      if (ended === null) throw new Refusal('not-found', 'no card was checked since the station started');
      return ended;
    },
  );
  app.post(
    '/api/v1/cards/take-in',
    {
      schema: {
        tags: ['cards'],
        operationId: 'takeInCard',
        summary:
          'Takes in what the last check found missing, as if that camera sent it; the card stays as it is',
        body: cardTakeIn,
        response: {
          202: jsonAnswer('The check with what is taken in', cardCheck),
          ...problemAnswers('bad-value', 'no-card-check', 'no-card', 'no-camera', 'card-busy', 'not-json'),
        },
      },
    },
    async (request, reply) => reply.code(202).send(await desk.takeInCard(request.body.camera)),
  );
}
