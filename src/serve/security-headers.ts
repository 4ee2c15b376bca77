import type { FastifyReply } from 'fastify';
import type { WebApp } from './web-app.ts';

/**
 * The page may load its own scripts, styles, fonts and pictures, talk to its own station, and nothing else
 * (W3C Content Security Policy Level 3). `blob:` and `data:` pictures are what a canvas hands out.
 */
export const pagePolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "object-src 'none'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'self'",
].join('; ');

/** Whatever is not the page is data: it loads nothing, and where it is opened on its own it can do nothing. */
export const dataPolicy = "default-src 'none'; frame-ancestors 'none'; sandbox";

/**
 * On every answer. No `Strict-Transport-Security`: see `docs/decisions/0011-how-another-device-comes-in.md`. Frames show unpublished work: nothing is kept
 * by a cache, no other site may embed or read it.
 */
const always: Readonly<Record<string, string>> = {
  'content-security-policy': dataPolicy,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};

/** Sets the headers of every answer before anything else runs; a route may widen them. */
export function securityHeaders(app: WebApp): void {
  app.addHook('onRequest', async (_request, reply) => {
    setSecurityHeaders(reply);
  });
}

export function setSecurityHeaders(reply: FastifyReply): void {
  reply.headers(always);
}

/** The same as lines of a raw answer, for requests that never reach the router. */
export const securityHeaderLines: string = Object.entries(always)
  .map(([name, value]) => `${name}: ${value}\r\n`)
  .join('');
