import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { enterLink, linkList, madeLink, newLink, type Visitor, visitor } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { CallBounds } from '../call-bounds.ts';
import { isLoopbackAddress, isLoopbackHost } from '../core/caller.ts';
import { setCookie } from '../core/cookie.ts';
import type { Who } from '../core/who.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf, holderOf } from '../guard.ts';
import type { Line } from '../link-calls.ts';
import { heldSecret, isEncrypted, isOutside } from '../passage.ts';
import type { WebApp } from '../web-app.ts';
import { id } from './path-values.ts';

/** Who may look in: the operator makes links and ends them, devices come in by them and go. */
export function linkRoutes(app: WebApp, desk: StationDesk, bounds: CallBounds): void {
  manageRoutes(app, desk);
  ownRoutes(app, desk);
  app.post(
    '/api/v1/links/enter',
    {
      schema: {
        tags: ['links'],
        operationId: 'enterLink',
        summary: 'Exchanges the secret of a link for a cookie of this device',
        body: enterLink,
        response: {
          200: jsonAnswer('Who came in', visitor),
          ...problemAnswers(
            'bad-value',
            'no-such-link',
            'encrypted-only',
            'ended-in-clear',
            'too-many-tries',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      bounds.assertMayTry(request, reply);
      // Noted before it is looked at, so that many at once are not all looked at.
      bounds.noteWrong(request);
      const entered = await desk.enterLink(
        request.body.token,
        heldSecret(request),
        request.raw.socket.remoteAddress ?? '',
        lineOf(request),
      );
      if (entered === null) throw new Refusal('no-such-link', 'No link has this secret, or it has ended.');
      bounds.forgiveWrong(request);
      if (entered === 'encrypted-only')
        throw new Refusal('encrypted-only', 'The link goes on, and is not taken in clear.');
      if (entered === 'ended-in-clear')
        throw new Refusal('ended-in-clear', 'The link crossed the network in clear and has ended.');
      reply.header('set-cookie', setCookie(entered.secret, entered.seconds, isEncrypted(request)));
      return visitorOf(request, desk, entered.who, entered.ends);
    },
  );
}

/** Both the peer and the name in the browser's address have to be this computer: a tunnel that ends here has one of them. */
function lineOf(request: FastifyRequest): Line {
  if (isEncrypted(request) || !isOutside(request)) return 'encrypted';
  const here = isLoopbackAddress(request.raw.socket.remoteAddress ?? '');
  return here && isLoopbackHost(request.headers.host) ? 'here-in-clear' : 'in-clear';
}

function manageRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/links',
    {
      schema: {
        tags: ['links'],
        operationId: 'listLinks',
        summary:
          'Links that have not ended, the newest first; without their secrets, which nobody knows any more',
        response: { 200: jsonAnswer('The links', linkList), ...problemAnswers('operator-only') },
      },
    },
    () => desk.links(),
  );
  app.post(
    '/api/v1/links',
    {
      schema: {
        tags: ['links'],
        operationId: 'makeLink',
        summary: 'Makes a link for another device; its secret is told this once',
        body: newLink,
        response: {
          201: jsonAnswer('The link with its addresses', madeLink),
          ...problemAnswers('bad-value', 'operator-only', 'no-job', 'too-many-links', 'not-json'),
        },
      },
    },
    async (request, reply) => {
      const { scope, share } = request.body;
      if ((scope === 'guest') !== (share !== undefined)) {
        throw new Refusal('bad-value', 'body/share: a guest is shown a job, and nobody else is.');
      }
      return reply.code(201).send(await desk.makeLink(request.body, callerOf(request)));
    },
  );
  app.delete(
    '/api/v1/links/:link',
    {
      schema: {
        tags: ['links'],
        operationId: 'endLink',
        summary: 'Ends a link at once, with the event streams of its devices',
        params: z.object({ link: id }),
        response: {
          204: z.undefined().describe('It has ended'),
          ...problemAnswers('operator-only', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const ended = await desk.endLink(request.params.link, callerOf(request));
      if (!ended) throw new Refusal('not-found', 'There is no link of this id.');
      return reply.code(204).send();
    },
  );
}

function ownRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/links/me',
    {
      schema: {
        tags: ['links'],
        operationId: 'getVisitor',
        summary: 'Who is asking, until when, and what for',
        response: { 200: jsonAnswer('That', visitor), ...problemAnswers('link-needed') },
      },
    },
    (request) =>
      visitorOf(
        request,
        desk,
        callerOf(request),
        isOutside(request) ? (holderOf(request, desk)?.ends ?? null) : null,
      ),
  );
  app.delete(
    '/api/v1/links/me',
    {
      schema: {
        tags: ['links'],
        operationId: 'leaveLink',
        summary: 'This device goes: its cookie is worth nothing from now on',
        response: { 204: z.undefined().describe('It is gone'), ...problemAnswers('link-needed') },
      },
    },
    async (request, reply) => {
      const secret = heldSecret(request);
      if (secret !== null) await desk.leaveLink(secret);
      return takeBack(reply, isEncrypted(request)).code(204).send();
    },
  );
}

function takeBack(reply: FastifyReply, encrypted: boolean): FastifyReply {
  return reply.header('set-cookie', setCookie('', 0, encrypted));
}

async function visitorOf(
  request: FastifyRequest,
  desk: StationDesk,
  { scope, name, share }: Who,
  ends: string | null,
): Promise<Visitor> {
  return {
    scope,
    name,
    ends,
    encrypted: isEncrypted(request) || !isOutside(request),
    certificate: desk.rootCertificate() !== null,
    job: share === undefined || share === null ? null : await desk.sharedJob(share),
  };
}
