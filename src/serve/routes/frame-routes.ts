import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { type Frame, frame, framePage, framePatch } from '../../contract/index.ts';
import { marks } from '../../facts/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import { matchableTags, strongTag } from '../core/entity-tag.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { id, shortName } from './path-values.ts';

/** A page of frames is about 2 kB each: 500 are one megabyte, which a page reads without a pause. */
export const pageFramesMax = 500;
const pageFramesDefault = 100;

const frameQuery = z.strictObject({
  job: shortName.optional().describe('Code of a job; "unsorted" for the tray'),
  shot: shortName.optional(),
  camera: shortName.optional(),
  mark: z.enum(marks).optional(),
  after: z.string().min(1).max(256).optional().describe('`next` of the page before'),
  limit: z.coerce.number().int().min(1).max(pageFramesMax).default(pageFramesDefault),
});

const frameParams = z.object({ id });

export function frameRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames',
    {
      schema: {
        tags: ['frames'],
        operationId: 'listFrames',
        summary: 'Frames in shutter order, paged by cursor',
        querystring: frameQuery,
        response: { 200: jsonAnswer('One page', framePage), ...problemAnswers('bad-value') },
      },
    },
    (request) => desk.frames(request.query),
  );
  app.get(
    '/api/v1/frames/:id',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getFrame',
        summary: 'One frame; `ETag` is its version, for `If-Match`',
        params: frameParams,
        response: { 200: jsonAnswer('The frame', frame), ...problemAnswers('not-found') },
      },
    },
    async (request, reply) => withVersion(reply, await desk.frame(request.params.id)),
  );
  app.patch(
    '/api/v1/frames/:id',
    {
      schema: {
        tags: ['frames'],
        operationId: 'patchFrame',
        summary: 'Marks a frame, or moves it to another job',
        params: frameParams,
        headers: z.object({
          'if-match': z.string().optional().describe('`ETag` of the frame as it was seen'),
        }),
        body: framePatch,
        response: {
          200: jsonAnswer('The frame after the change', frame),
          ...problemAnswers('bad-value', 'no-job', 'not-found', 'version-changed', 'not-json'),
        },
      },
    },
    async (request, reply) => {
      const ifVersion = versions(matchableTags(request.headers['if-match']));
      const by = { who: callerOf(request), ifVersion };
      return withVersion(reply, await desk.patchFrame(request.params.id, request.body, by));
    },
  );
}

function withVersion(reply: FastifyReply, found: Frame | null): Frame {
  if (found === null) throw new Refusal('not-found', 'There is no frame of this id.');
  reply.header('etag', strongTag(String(found.version)));
  return found;
}

function versions(tags: 'any' | readonly string[]): 'any' | readonly number[] {
  return tags === 'any' ? 'any' : tags.map(Number).filter(Number.isSafeInteger);
}
