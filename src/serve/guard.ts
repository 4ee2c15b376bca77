import type { FastifyRequest } from 'fastify';
import type { CallBounds } from './call-bounds.ts';
import { comesFromHere, isLoopbackHost, isOwnHost } from './core/caller.ts';
import { beyondSay, mayCall, type Right, rightTo } from './core/rights.ts';
import { frameFor } from './core/shared.ts';
import type { Who } from './core/who.ts';
import { withoutSecrets } from './core/without-secrets.ts';
import type { StationDesk } from './desk.ts';
import { Refusal } from './errors.ts';
import type { LinkHolder } from './link-calls.ts';
import { heldSecret, isEncrypted, isOutside } from './passage.ts';
import type { WebApp } from './web-app.ts';

export interface GuardOptions {
  /** Names and addresses of this computer that another device may call it by. */
  readonly ownHosts: () => readonly string[];
  readonly bounds: CallBounds;
}

/**
 * Lets in who may come in: the operator from this computer, others by a link; turns away what a foreign page sends through
 * a browser; holds every call against what `core/rights.ts` asks for; tells nobody but the operator a secret.
 */
export function guardCallers(app: WebApp, desk: StationDesk, { ownHosts, bounds }: GuardOptions): void {
  app.decorateRequest('who', null);
  app.addHook('onRequest', async (request, reply) => {
    if (!isKnownHost(request, ownHosts)) {
      throw new Refusal('wrong-host', 'The name in the address is not this computer’s own.');
    }
    if (!comesFromHere(provenance(request))) {
      throw new Refusal('foreign-page', 'The request was sent by a page that is not the station’s own.');
    }
    const holder = holderOf(request, desk);
    const who = isOutside(request) ? (holder?.who ?? null) : operator;
    bounds.count(request, reply, who);
    assertMayCall(request, who);
    request.setDecorator('who', onScreen(who, request.headers['setside-screen']));
  });
  app.addHook('preHandler', async (request) => {
    const who = request.getDecorator<Who | null>('who');
    if (who === null) return;
    assertMaySay(request, who);
    await assertShared(request, who, desk);
  });
  app.addHook('preSerialization', async (request, _reply, payload) => {
    const who = request.getDecorator<Who | null>('who');
    return who?.scope === 'operator' ? payload : withoutSecrets(payload);
  });
}

/** What a page may call itself. */
const screenName = /^[a-z0-9]{8,32}$/;

function onScreen(who: Who | null, screen: string | string[] | undefined): Who | null {
  return who === null || typeof screen !== 'string' || !screenName.test(screen) ? who : { ...who, screen };
}

const operator: Who = { scope: 'operator', name: 'operator' };

/** Who sent a request that the guard has let in. */
export function callerOf(request: FastifyRequest): Who {
  const who = request.getDecorator<Who | null>('who');
  if (who === null) throw new Refusal('link-needed', 'This is for somebody with a link.');
  return who;
}

/** The link by whose cookie a request came; null without one, and once it has ended. */
export function holderOf(request: FastifyRequest, desk: StationDesk): LinkHolder | null {
  const secret = heldSecret(request);
  return secret === null ? null : desk.holder(secret);
}

/** The least scope of the route; asked for again where a handler serves several. */
function rightOf(request: FastifyRequest): Right {
  return rightTo(request.method, request.routeOptions.url);
}

function assertMayCall(request: FastifyRequest, who: Who | null): void {
  const right = rightOf(request);
  if (right === 'anyone') return;
  if (who === null) {
    throw new Refusal(
      'link-needed',
      'Only the computer the station runs on, or a link from the operator, opens this.',
    );
  }
  if (who.scope === 'operator' && isOutside(request) && !isEncrypted(request)) {
    throw new Refusal('encrypted-only', 'What an operator may see does not cross the network in clear.');
  }
  if (!mayCall(right, who)) throw new Refusal('operator-only', 'This link does not open that.');
}

function assertMaySay(request: FastifyRequest, who: Who): void {
  const field = beyondSay(rightOf(request), who, request.body);
  if (field !== null) throw new Refusal('operator-only', `This link may not say "${field}".`);
}

/** A frame that is not shared is not there. */
async function assertShared(request: FastifyRequest, who: Who, desk: StationDesk): Promise<void> {
  if (who.scope !== 'guest' || !request.routeOptions.url?.startsWith('/api/v1/frames/:id')) return;
  const { params } = request;
  const id = typeof params === 'object' && params !== null && 'id' in params ? String(params.id) : '';
  const frame = await desk.frame(id);
  if (frame === null || frameFor(who, frame) === null)
    throw new Refusal('not-found', 'There is no frame of this id.');
}

function isKnownHost(request: FastifyRequest, ownHosts: () => readonly string[]): boolean {
  const { host } = request.headers;
  return isLoopbackHost(host) || (isOutside(request) && isOwnHost(host, ownHosts()));
}

function provenance(request: FastifyRequest): Parameters<typeof comesFromHere>[0] {
  const { headers } = request;
  return {
    method: request.method,
    scheme: isEncrypted(request) ? 'https' : 'http',
    host: headers.host,
    origin: headers.origin,
    fetchSite: single(headers['sec-fetch-site']),
    fetchMode: single(headers['sec-fetch-mode']),
  };
}

function single(header: string | string[] | undefined): string | undefined {
  return Array.isArray(header) ? header.join(',') : header;
}
