import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import {
  type Frame,
  type FramePage,
  frame,
  framePage,
  framePatch,
  framesMarked,
  framesToMark,
} from '../../contract/index.ts';
import { marks } from '../../facts/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import { frameFor } from '../core/shared.ts';
import type { Who } from '../core/who.ts';
import type { FrameQuery, StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders, withVersion } from './if-match.ts';
import { patchBy } from './job-routes.ts';
import { id, shortName } from './path-values.ts';

/** A page of frames is about 2 kB each: 500 are one megabyte, which a page reads without a pause. */
export const pageFramesMax = 500;
const pageFramesDefault = 100;

const frameQuery = z.strictObject({
  job: shortName.optional().describe('Code of a job; "unsorted" for the tray'),
  shot: shortName.optional(),
  camera: shortName.optional(),
  mark: z.enum(marks).optional(),
  order: z
    .enum(['day', 'newest'])
    .optional()
    .describe('newest: against the day, so that what was just taken comes first'),
  after: z.string().min(1).max(256).optional().describe('`next` of the page before, in the same order'),
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
        summary:
          'Frames in the order of the day, paged by cursor: by shutter, or by first byte where the shutter cannot be believed',
        querystring: frameQuery,
        response: { 200: jsonAnswer('One page', framePage), ...problemAnswers('bad-value') },
      },
    },
    (request) => framesFor(desk, callerOf(request), request.query),
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
    async (request, reply) => {
      const found = await desk.frame(request.params.id);
      return frameAnswer(reply, found === null ? null : frameFor(callerOf(request), found));
    },
  );
  app.post(
    '/api/v1/marks',
    {
      schema: {
        tags: ['frames'],
        operationId: 'markFrames',
        summary:
          'Marks frames alike, all as one act; those that have the mark, or were marked otherwise than was seen, are left alone',
        body: framesToMark,
        response: {
          200: jsonAnswer('How many had another mark, and which were left', framesMarked),
          ...problemAnswers('bad-value', 'no-frame', 'act-taken-back', 'not-json'),
        },
      },
    },
    (request) => desk.markFrames(request.body, callerOf(request)),
  );
  app.patch(
    '/api/v1/frames/:id',
    {
      schema: {
        tags: ['frames'],
        operationId: 'patchFrame',
        summary: 'Marks a frame, says what it is for, gives it a look, or moves it to another shot or job',
        params: frameParams,
        headers: ifMatchHeaders,
        body: framePatch,
        response: {
          200: jsonAnswer('The frame after the change', frame),
          ...problemAnswers(
            'bad-value',
            'no-job',
            'no-shot',
            'no-such-look',
            'job-finished',
            'not-found',
            'version-changed',
            'changed-meanwhile',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const changed = await desk.patchFrame(request.params.id, request.body, patchBy(request));
      return frameAnswer(reply, changed);
    },
  );
}

/** A guest's pages hold what is shared: fewer than asked for, but none is missed. */
async function framesFor(desk: StationDesk, who: Who, query: FrameQuery): Promise<FramePage> {
  if (who.scope !== 'guest') return desk.frames(query);
  const { share } = who;
  if (share === null || share === undefined) return { frames: [], next: null };
  const { frames, next } = await desk.frames({ ...query, job: share.job });
  return { frames: frames.flatMap((each) => frameFor(who, each) ?? []), next };
}

/** The frame with its version, or 404. */
export function frameAnswer(reply: FastifyReply, found: Frame | null): Frame {
  if (found === null) throw new Refusal('not-found', 'There is no frame of this id.');
  return withVersion(reply, found);
}
