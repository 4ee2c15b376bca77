import type { FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { errorCode, errorMessage, SetsideError } from '../base/index.ts';
import type { Problem } from '../contract/index.ts';
import { isWebProblemCode, Refusal, type WebProblemCode, webProblems } from './errors.ts';
import { plainPage } from './plain-page.ts';
import { type NowDesk, withNow } from './problem-now.ts';
import type { WebApp } from './web-app.ts';
import type { WebLog } from './web-log.ts';

/** More wrong values than a person reads; the rest is left out. */
const valueErrorsMax = 20;

/** What a handler may have said of an answer that then failed; none of it is true of the problem. */
const headersOfTheAnswer = [
  'etag',
  'accept-ranges',
  'content-disposition',
  'content-length',
  'repr-digest',
  'setside-source',
];

/** Every error leaves as RFC 9457 problem details, or as a plain page where a person follows a link to a page. */
export function answerProblems(app: WebApp, desk: NowDesk, log: WebLog): void {
  app.setErrorHandler(async (error, request, reply) => {
    const problem = await withNow(desk, request, toProblem(error));
    if (problem.status >= 500) {
      log({
        level: 'error',
        event: 'request-failed',
        details: {
          method: request.method,
          url: request.url,
          code: errorCode(error),
          message: errorMessage(error),
        },
        error,
      });
    }
    return sendProblem(request, reply, problem);
  });
  app.setNotFoundHandler((request, reply) =>
    sendProblem(request, reply, makeProblem('not-found', 'Nothing is at this address.')),
  );
}

export function sendProblem(request: FastifyRequest, reply: FastifyReply, problem: Problem): FastifyReply {
  for (const name of headersOfTheAnswer) reply.removeHeader(name);
  reply.code(problem.status).header('cache-control', 'no-store');
  if (wantsPage(request)) return plainPage(reply, problem.title, linesFor(problem));
  // As bytes, since text would get a charset parameter, which this media type does not have (RFC 9457 section 6.1).
  return reply.type('application/problem+json').send(Buffer.from(JSON.stringify(problem)));
}

/**
 * The problem that stands for anything thrown. Only a {@link Refusal}, written for callers, brings its own words:
 * other messages may name paths of this computer, and a stack never leaves it.
 */
export function toProblem(thrown: unknown): Problem {
  if (thrown instanceof Refusal) {
    const problem = makeProblem(thrown.code, thrown.message);
    return thrown.finding === undefined ? problem : { ...problem, finding: { ...thrown.finding } };
  }
  if (hasZodFastifySchemaValidationErrors(thrown)) return valueProblem(thrown);
  if (thrown instanceof SetsideError && isWebProblemCode(thrown.code)) {
    return makeProblem(thrown.code, `${webProblems[thrown.code].title}.`);
  }
  const code = frameworkCode(thrown);
  return makeProblem(code, `${webProblems[code].title}.`);
}

export function makeProblem(code: WebProblemCode, detail: string): Problem {
  const { status, title, cure } = webProblems[code];
  return { type: 'about:blank', title, status, detail, code, cure };
}

type ValueError = Parameters<typeof toProblem>[0] & {
  validation: readonly { instancePath: string; message?: string | undefined }[];
  validationContext?: string | undefined;
};

/** A path that cannot name anything is answered like one that names nothing: 404. */
function valueProblem(error: ValueError): Problem {
  const where = error.validationContext ?? 'request';
  if (where === 'params') return makeProblem('not-found', 'Nothing is at this address.');
  const errors = error.validation.slice(0, valueErrorsMax).map((each) => ({
    where: each.instancePath === '/' ? where : `${where}${each.instancePath}`,
    detail: each.message ?? 'not allowed',
  }));
  const first = errors[0];
  const detail = first === undefined ? 'A value is not allowed.' : `${first.where}: ${first.detail}.`;
  return { ...makeProblem('bad-value', detail), errors };
}

/** Fastify's own refusals by their status; whatever else was thrown is our fault. */
function frameworkCode(thrown: unknown): WebProblemCode {
  const status =
    typeof thrown === 'object' && thrown !== null && 'statusCode' in thrown ? thrown.statusCode : 500;
  switch (status) {
    case 400:
      return 'bad-request';
    case 403:
    case 404:
      return 'not-found';
    case 408:
      return 'request-timeout';
    case 413:
      return 'too-large';
    case 414:
      return 'too-long';
    case 415:
      return 'not-json';
    case 503:
      return 'stopping';
    default:
      return 'internal';
  }
}

/**
 * A person who follows a link, of a paper too: a browser names `text/html` then (RFC 9110 section 12.5.1), and neither
 * `fetch` nor a program does unless it wants a page. One that also names JSON gets JSON.
 */
function wantsPage({ method, headers }: FastifyRequest): boolean {
  const accept = headers.accept ?? '';
  return method === 'GET' && accept.includes('text/html') && !accept.includes('json');
}

/** Nothing twice, and no call to be made by hand. */
function linesFor({ title, detail, cure }: Problem): string[] {
  const lines = detail === `${title}.` ? [] : [detail];
  return cure === null || cure.includes('/api/') ? lines : [...lines, cure];
}
