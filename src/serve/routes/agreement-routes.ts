import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Agreement, agreementList, newAgreement } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { CallBounds } from '../call-bounds.ts';
import { agreementsFor, isSharedShot } from '../core/shared.ts';
import type { Who } from '../core/who.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { codeOrId, id } from './path-values.ts';
import { shotParams } from './shot-routes.ts';

const jobParams = z.object({ job: codeOrId });
const agreementParams = z.object({ job: codeOrId, agreement: id });

/** Who gave their word on which shot. */
export function agreementRoutes(app: WebApp, desk: StationDesk, bounds: CallBounds): void {
  app.get(
    '/api/v1/jobs/:job/agreements',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'listAgreements',
        summary: 'Who agreed to which shot, the oldest first',
        params: jobParams,
        response: { 200: jsonAnswer('The agreements', agreementList), ...problemAnswers('not-found') },
      },
    },
    async (request) => {
      const { job } = request.params;
      return agreementsOf(request, job, await desk.agreements(job));
    },
  );
  app.post(
    '/api/v1/jobs/:job/shots/:shot/agreements',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'agree',
        summary: 'Agrees to the heroes of a shot as they were seen; sent again under its id it counts once',
        params: shotParams,
        body: newAgreement,
        response: {
          200: jsonAnswer('The agreements after it', agreementList),
          ...problemAnswers(
            'bad-value',
            'name-wanted',
            'no-shot',
            'nothing-to-agree',
            'picture-changed',
            'id-taken',
            'name-taken',
            'too-many-agreements',
            'not-found',
            'not-json',
            'too-many-calls',
          ),
        },
      },
    },
    async (request, reply) => {
      const who = callerOf(request);
      const { job, shot } = request.params;
      assertTheirs(who, job, shot);
      bounds.countWord(reply, who);
      return agreementsOf(request, job, await desk.agree(job, shot, request.body, who));
    },
  );
  app.delete(
    '/api/v1/jobs/:job/agreements/:agreement',
    {
      schema: {
        tags: ['remarks'],
        operationId: 'withdrawAgreement',
        summary: 'Takes an agreement back: one’s own, or as the operator anybody’s',
        params: agreementParams,
        response: {
          200: jsonAnswer('The agreements after it', agreementList),
          ...problemAnswers('not-yours', 'not-found', 'too-many-calls'),
        },
      },
    },
    async (request, reply) => {
      const who = callerOf(request);
      const { job, agreement } = request.params;
      assertTheirs(who, job);
      bounds.countWord(reply, who);
      return agreementsOf(request, job, await desk.withdrawAgreement(job, agreement, who));
    },
  );
}

/** A job or shot that is not shared is not there. */
function assertTheirs({ scope, share }: Who, job: string, shot?: string): void {
  if (scope !== 'guest') return;
  const isTheirs =
    share !== null &&
    share !== undefined &&
    share.job === job &&
    (shot === undefined || isSharedShot(share, shot));
  if (!isTheirs) throw notThere();
}

function agreementsOf(
  request: FastifyRequest,
  job: string,
  found: readonly Agreement[] | null,
): { agreements: Agreement[] } {
  const agreements = found === null ? null : agreementsFor(callerOf(request), job, found);
  if (agreements === null) throw notThere();
  return { agreements };
}

function notThere(): Refusal {
  return new Refusal('not-found', 'There is no job, or no shot of it, of this name.');
}
