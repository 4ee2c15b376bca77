import { access } from 'node:fs/promises';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import { z } from 'zod';
import { callerOf } from '../guard.ts';
import { makeProblem, sendProblem } from '../problems.ts';
import { pagePolicy } from '../security-headers.ts';
import type { WebApp } from '../web-app.ts';

/** Addresses that the page itself understands. Each gets the same document; any other is 404, not a blank page. */
export const pagePaths = ['/', '/set', '/pocket', '/guest', '/in'] as const;

/** Documents of their own: to print, or to stand on a screen alone. */
const soloPages = { '/slates': 'slates.html', '/clock': 'clock.html' } as const;

/** A year, the longest that means anything (RFC 9111 section 1.2.2 bounds it at 2^31 s). Names carry a hash. */
const assetCaching = 'public, max-age=31536000, immutable';

/** Serves the files of the built page from a directory; what is not there is answered like any unknown address. */
export async function servePageFiles(app: WebApp, pageDir: string): Promise<void> {
  await app.register(fastifyStatic, {
    root: pageDir,
    serve: false,
    index: false,
    dotfiles: 'ignore',
    acceptRanges: false,
    cacheControl: false,
  });
  const schema = { hide: true, params: z.object({ '*': z.string() }) };
  app.get('/assets/*', { schema }, (request, reply) =>
    reply.header('cache-control', assetCaching).sendFile(`assets/${request.params['*']}`),
  );
  app.get('/icon.svg', { schema: { hide: true } }, (_request, reply) =>
    reply.header('cache-control', 'no-cache').sendFile('icon.svg'),
  );
  app.get('/*', { schema }, (request, reply) =>
    reply.header('cache-control', 'no-cache').sendFile(request.params['*']),
  );
}

/** Where each scope begins. */
const ownPage = { operator: '/', pocket: '/pocket', guest: '/guest' } as const;

/** Serves the page's own addresses, and says what to run while the page is not built. */
export function pageRoutes(app: WebApp, pageDir: string): void {
  for (const path of pagePaths) {
    app.get(path, { schema: { hide: true } }, async (request, reply) => {
      const own = path === '/' ? ownPage[callerOf(request).scope] : path;
      if (own !== path) return reply.redirect(own, 302);
      reply.header('content-security-policy', pagePolicy);
      if (!(await isBuilt(pageDir))) {
        return sendProblem(request, reply, makeProblem('page-not-built', 'There is no page to show yet.'));
      }
      return reply.sendFile('index.html');
    });
  }
  for (const [path, file] of Object.entries(soloPages)) {
    app.get(path, { schema: { hide: true } }, async (_request, reply) => {
      reply.header('content-security-policy', pagePolicy);
      if (!(await isBuilt(pageDir))) {
        return sendProblem(_request, reply, makeProblem('page-not-built', 'There is no page to show yet.'));
      }
      return reply.sendFile(file);
    });
  }
}

async function isBuilt(pageDir: string): Promise<boolean> {
  return access(join(pageDir, 'index.html')).then(
    () => true,
    () => false,
  );
}
