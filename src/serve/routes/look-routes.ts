import { z } from 'zod';
import { look, lookList, lookUse, lookUsed, lookWithVersions } from '../../contract/index.ts';
import type { Look as LookDocument } from '../../look/index.ts';
import { sentence } from '../../words/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import { lookBytesMax, lookInBody } from '../core/look-in-body.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { id } from './path-values.ts';

const lookParams = z.object({ look: id.describe('Id of a saved version') });

/** Said of every body that is a look: the schema of such a document is published by itself. */
export const lookBody: z.ZodUnknown = z
  .unknown()
  .describe('A look, see docs/look.schema.json; older versions are read too');

/** Looks that are kept: saved, listed, laid aside, used. */
export function lookRoutes(app: WebApp, desk: StationDesk): void {
  // By their own bytes, as text: what is declared as XML is a correction of the ASC CDL, or a CLF document.
  app.addContentTypeParser(['application/xml', 'text/xml'], { parseAs: 'buffer' }, (_request, body, done) =>
    done(null, body),
  );
  app.get(
    '/api/v1/looks',
    {
      schema: {
        tags: ['looks'],
        operationId: 'listLooks',
        summary: 'The looks that are kept, by name: of each the newest version',
        querystring: z.strictObject({
          all: z
            .enum(['0', '1'])
            .default('0')
            .describe('1: every version, the newest first, those laid aside too'),
        }),
        response: { 200: jsonAnswer('The looks', lookList), ...problemAnswers('bad-value') },
      },
    },
    async (request) => ({ looks: [...(await desk.looks(request.query.all === '1'))] }),
  );
  app.post(
    '/api/v1/looks',
    {
      bodyLimit: lookBytesMax,
      schema: {
        tags: ['looks'],
        operationId: 'saveLook',
        summary:
          'Saves a look as a new version of its title; the same document again is the version that is there',
        description:
          'The body is a look as `application/json`, or as `application/xml` one correction of the ASC CDL (or a CLF document ' +
          'that holds nothing else). Nothing is ever overwritten: 201 with a new version, 200 with the one that was there, ' +
          'put back where it was laid aside. Jobs and shots that name a look of this title, and for which none was kept, ' +
          'have it from then on.',
        querystring: z.strictObject({
          name: z.string().trim().min(1).max(80).optional().describe('Stands in place of the title'),
        }),
        body: lookBody,
        consumes: ['application/json', 'application/xml'],
        response: {
          200: jsonAnswer('The version that was there', look),
          201: jsonAnswer('The new version', look),
          ...problemAnswers(
            'bad-value',
            'bad-words',
            'bad-look',
            'too-many-looks',
            'too-large',
            'not-json',
            'disk-full',
          ),
        },
      },
    },
    async (request, reply) => {
      const document = lookOrRefuse(request.body, request.query.name);
      const { look: saved, isNew } = await desk.saveLook(document, callerOf(request));
      return reply.code(isNew ? 201 : 200).send(saved);
    },
  );
  app.get(
    '/api/v1/looks/:look',
    {
      schema: {
        tags: ['looks'],
        operationId: 'getLook',
        summary: 'A saved version with its document, and every version of its name',
        params: lookParams,
        response: { 200: jsonAnswer('The version', lookWithVersions), ...problemAnswers('not-found') },
      },
    },
    async (request) => orNotFound(await desk.look(request.params.look)),
  );
  for (const [what, aside, summary] of [
    ['aside', true, 'Lays a version aside: it is no longer offered, and whatever it was chosen for keeps it'],
    ['back', false, 'Offers a version again that was laid aside'],
  ] as const) {
    app.post(
      `/api/v1/looks/:look/${what}`,
      {
        schema: {
          tags: ['looks'],
          operationId: aside ? 'layLookAside' : 'putLookBack',
          summary,
          params: lookParams,
          response: { 200: jsonAnswer('The version', look), ...problemAnswers('not-found', 'disk-full') },
        },
      },
      async (request) => orNotFound(await desk.layLookAside(request.params.look, aside, callerOf(request))),
    );
  }
  app.post(
    '/api/v1/looks/:look/use',
    {
      schema: {
        tags: ['looks'],
        operationId: 'useLook',
        summary:
          'Makes a version the look of a job, of several of its shots, or of frames: one act, one undo',
        params: lookParams,
        body: lookUse,
        response: {
          200: jsonAnswer('What was changed', lookUsed),
          ...problemAnswers(
            'bad-value',
            'no-job',
            'no-shot',
            'no-frame',
            'job-finished',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request) => {
      const { look: chosen } = request.params;
      return { changed: orNotFound(await desk.useLook(chosen, request.body, callerOf(request))) };
    },
  );
}

/** The look in a body. Throws `bad-look` with a sentence for each thing that is wrong. */
export function lookOrRefuse(body: unknown, name?: string | undefined): LookDocument {
  const { look: document, findings } = lookInBody(body, name);
  if (document !== null) return document;
  const [first] = findings;
  throw new Refusal('bad-look', findings.map((finding) => sentence(finding)).join(' '), first);
}

function orNotFound<Answer>(answer: Answer | null): Answer {
  if (answer === null) throw new Refusal('not-found', 'No look of this id is kept.');
  return answer;
}
