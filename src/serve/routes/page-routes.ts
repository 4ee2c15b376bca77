import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import { z } from 'zod';
import { type PagePath, pagePaths, titleOfPage } from '../../words/index.ts';
import { callerOf } from '../guard.ts';
import { makeProblem, sendProblem } from '../problems.ts';
import { pagePolicy } from '../security-headers.ts';
import type { WebApp } from '../web-app.ts';

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

/** Serves the page's own addresses, and says what to run while the page is not built. Any other is 404, not a blank page. */
export function pageRoutes(app: WebApp, pageDir: string): void {
  for (const path of pagePaths) {
    app.get(path, { schema: { hide: true } }, async (request, reply) => {
      const own = path === '/' ? ownPage[callerOf(request).scope] : path;
      if (own !== path) return reply.redirect(own, 302);
      reply.header('content-security-policy', pagePolicy);
      const shell = await shellOf(pageDir);
      if (shell === null) {
        return sendProblem(request, reply, makeProblem('page-not-built', 'There is no page to show yet.'));
      }
      return reply.type('text/html; charset=utf-8').send(titled(shell, path));
    });
  }
}

/** One document for all of them; null while the page is not built. Read each time: it may be built anew meanwhile. */
function shellOf(pageDir: string): Promise<string | null> {
  return readFile(join(pageDir, 'index.html'), 'utf8').catch(() => null);
}

/** With the title of its page: what a browser keeps of it before, or without, any script. */
function titled(shell: string, path: PagePath): string {
  return shell.replace(/<title>[^<]*<\/title>/, `<title>${titleOfPage(path)}</title>`);
}
