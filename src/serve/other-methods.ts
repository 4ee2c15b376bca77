import type { HTTPMethods } from 'fastify';
import { makeProblem, sendProblem } from './problems.ts';
import type { WebApp } from './web-app.ts';

/**
 * Registers routes and answers every other method on their addresses with 405 and `Allow` (RFC 9110 section 15.5.6),
 * where the router alone would say 404.
 */
export function closeOtherMethods(app: WebApp, register: () => void): void {
  const open = new Map<string, Set<string>>();
  let listening = true;
  app.addHook('onRoute', ({ url, method }) => {
    if (!listening) return;
    const methods = open.get(url) ?? new Set<string>();
    for (const each of [method].flat()) methods.add(each);
    open.set(url, methods);
  });
  register();
  listening = false;
  for (const [url, methods] of open) refuseAllBut(app, url, methods);
}

function refuseAllBut(app: WebApp, url: string, methods: ReadonlySet<string>): void {
  const allow = [...methods].sort().join(', ');
  app.route({
    url,
    method: app.supportedMethods.filter((method) => !methods.has(method)) as HTTPMethods[],
    schema: { hide: true },
    handler: (request, reply) => {
      reply.header('allow', allow);
      return sendProblem(
        request,
        reply,
        makeProblem('method-not-allowed', `${request.method} is not possible here. Possible: ${allow}.`),
      );
    },
  });
}
