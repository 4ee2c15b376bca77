import type { FastifyRequest } from 'fastify';
import { comesFromHere, isLoopbackAddress, isLoopbackHost, type Who } from './core/caller.ts';
import { Refusal } from './errors.ts';
import type { WebApp } from './web-app.ts';

/** Lets in whom {@link whoIs} knows and turns away requests that a foreign page sends through a browser here. */
export function guardCallers(app: WebApp): void {
  app.decorateRequest('who', null);
  app.addHook('onRequest', async (request) => {
    const who = whoIs(request);
    if (who === null) {
      throw new Refusal(
        'operator-only',
        'Only the computer the station runs on, or a link from the operator, opens this.',
      );
    }
    if (!isLoopbackHost(request.headers.host)) {
      throw new Refusal('wrong-host', 'The name in the address is not this computer’s own.');
    }
    if (!comesFromHere(provenance(request))) {
      throw new Refusal('foreign-page', 'The request was sent by a page that is not the station’s own.');
    }
    request.setDecorator('who', who);
  });
}

/** Who sent the request. The seam for links: today a loopback peer is the operator and nobody else is anybody. */
export function whoIs(request: FastifyRequest): Who | null {
  const address = request.socket.remoteAddress;
  return address !== undefined && isLoopbackAddress(address) ? { scope: 'operator', name: 'operator' } : null;
}

/** Who sent a request that the guard has let in. */
export function callerOf(request: FastifyRequest): Who {
  return request.getDecorator<Who>('who');
}

function provenance(request: FastifyRequest): Parameters<typeof comesFromHere>[0] {
  const { headers } = request;
  return {
    method: request.method,
    host: headers.host,
    origin: headers.origin,
    fetchSite: single(headers['sec-fetch-site']),
    fetchMode: single(headers['sec-fetch-mode']),
  };
}

function single(header: string | string[] | undefined): string | undefined {
  return Array.isArray(header) ? header.join(',') : header;
}
