import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { matchableTags, strongTag } from '../core/entity-tag.ts';

/** Headers of a change that must not meet another version than the one that was seen. */
export const ifMatchHeaders = z.object({
  'if-match': z.string().optional().describe('`ETag` of what is changed, as it was seen'),
});

/** The versions that `If-Match` names (RFC 9110 section 13.1.1). */
export function versionsIn(header: string | undefined): 'any' | readonly number[] {
  const tags = matchableTags(header);
  return tags === 'any' ? 'any' : tags.map(Number).filter(Number.isSafeInteger);
}

/** Sends the version along, for the next `If-Match`. */
export function withVersion<T extends { readonly version: number }>(reply: FastifyReply, found: T): T {
  reply.header('etag', strongTag(String(found.version)));
  return found;
}
