import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  type Frame,
  newAnswer,
  newRemark,
  type Remark,
  remarkList,
  remarkSettling,
} from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { CallBounds } from '../call-bounds.ts';
import { frameFor } from '../core/shared.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { id } from './path-values.ts';

const frameParams = z.object({ id });
const remarkParams = z.object({ id, remark: id });
const answer = { 200: jsonAnswer('The remarks of the frame after it', remarkList) };
const wrong = ['bad-value', 'name-wanted', 'not-found', 'not-json', 'too-many-calls'] as const;

/** What people say of a frame, each remark pinned to a point of it. */
export function remarkRoutes(app: WebApp, desk: StationDesk, bounds: CallBounds): void {
  app.get(
    '/api/v1/frames/:id/remarks',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'listRemarks',
        summary: 'What was said of a frame, the oldest first; a guest hears what is for guests',
        params: frameParams,
        response: { 200: jsonAnswer('The remarks', remarkList), ...problemAnswers('not-found') },
      },
    },
    async (request) => remarksFor(request, await desk.frame(request.params.id)),
  );
  app.post(
    '/api/v1/frames/:id/remarks',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'makeRemark',
        summary: 'Pins a remark to a point of a frame; sent again under its id it counts once',
        params: frameParams,
        body: newRemark,
        response: { ...answer, ...problemAnswers('id-taken', 'too-many-remarks', ...wrong) },
      },
    },
    async (request, reply) => {
      const who = counted(request, reply, bounds);
      return remarksFor(request, await desk.remark(request.params.id, request.body, who));
    },
  );
  app.post(
    '/api/v1/frames/:id/remarks/:remark/answers',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'answerRemark',
        summary: 'Answers a remark; one that was settled is open again where a guest answers it',
        params: remarkParams,
        body: newAnswer,
        response: { ...answer, ...problemAnswers('no-remark', 'id-taken', 'too-many-remarks', ...wrong) },
      },
    },
    async (request, reply) => {
      const who = counted(request, reply, bounds);
      const { id: frame, remark } = request.params;
      return remarksFor(request, await desk.answerRemark(frame, remark, request.body, who));
    },
  );
  app.put(
    '/api/v1/frames/:id/remarks/:remark/settled',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'settleRemark',
        summary: 'Says that a remark is settled, or open again',
        params: remarkParams,
        body: remarkSettling,
        response: { ...answer, ...problemAnswers('no-remark', ...wrong) },
      },
    },
    async (request, reply) => {
      const who = counted(request, reply, bounds);
      const { id: frame, remark } = request.params;
      return remarksFor(request, await desk.settleRemark(frame, remark, request.body, who));
    },
  );
}

function counted(
  request: FastifyRequest,
  reply: FastifyReply,
  bounds: CallBounds,
): ReturnType<typeof callerOf> {
  const who = callerOf(request);
  bounds.countWord(reply, who);
  return who;
}

/** What who asks may hear. It was said even where the frame is no longer shared a moment later: an empty list then. */
function remarksFor(request: FastifyRequest, frame: Frame | null): { remarks: Remark[] } {
  if (frame === null) throw new Refusal('not-found', 'There is no frame of this id.');
  return { remarks: frameFor(callerOf(request), frame)?.remarks ?? [] };
}
