import { type FileHandle, open } from 'node:fs/promises';
import { basename } from 'node:path';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { errorCode, SetsideError } from '../../base/index.ts';
import { sentence } from '../../words/index.ts';
import { bytesAnswer, problemAnswers, unchangedAnswer } from '../answers.ts';
import { sendNothing, sizeOrClose } from '../content.ts';
import { attachmentDisposition } from '../core/attachment-name.ts';
import { answerRange, type RangeAnswer } from '../core/byte-range.ts';
import { isSameTag, namesTag, strongTag } from '../core/entity-tag.ts';
import type { Original, StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { fileName, id } from './path-values.ts';

export function fileRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames/:id/files/:name',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getOriginal',
        summary: 'An original, byte for byte as it was received',
        params: z.object({ id, name: fileName }),
        headers: z.object({
          range: z.string().optional().describe('One range of bytes, e.g. `bytes=0-1023`'),
        }),
        response: {
          200: bytesAnswer('The whole file', 'application/octet-stream'),
          206: bytesAnswer('The part asked for', 'application/octet-stream'),
          304: unchangedAnswer,
          ...problemAnswers('not-found', 'bad-range'),
        },
      },
    },
    async (request, reply) => {
      const original = await desk.original(request.params.id, request.params.name);
      if (original === null) throw new Refusal('not-found', 'The frame has no kept file of this name.');
      describe(reply, request.params.name, original);
      if (namesTag(request.headers['if-none-match'], tagOf(original))) {
        return sendNothing(request, reply.code(304));
      }
      return sendPart(request, reply, original);
    },
  );
}

/**
 * Whatever a camera or a stranger uploaded is never opened as a page here: it is saved, of no type a browser runs.
 * `Repr-Digest` (RFC 9530) lets a client prove that it has the very bytes that were received, part by part.
 */
function describe(reply: FastifyReply, name: string, original: Original): void {
  reply.type('application/octet-stream').headers({
    etag: tagOf(original),
    'accept-ranges': 'bytes',
    'cache-control': 'private, no-cache',
    'content-disposition': attachmentDisposition(name),
    'repr-digest': `sha-256=:${Buffer.from(original.sha256, 'hex').toString('base64')}:`,
  });
}

async function sendPart(
  request: FastifyRequest,
  reply: FastifyReply,
  original: Original,
): Promise<FastifyReply> {
  const range = rangeOf(request, original);
  if (range.kind === 'unsatisfiable') {
    reply.header('content-range', `bytes */${original.sizeBytes}`);
    throw new Refusal('bad-range', `The file has ${original.sizeBytes} bytes.`);
  }
  if (range.kind === 'whole') {
    return sendBytes(request, reply, original, 0, original.sizeBytes);
  }
  reply.code(206);
  reply.header('content-range', `bytes ${range.firstByte}-${range.lastByte}/${original.sizeBytes}`);
  return sendBytes(request, reply, original, range.firstByte, range.lastByte - range.firstByte + 1);
}

/** RFC 9110: a range is for GET only (14.2), and only while `If-Range` names these very bytes (13.1.5). */
function rangeOf(request: FastifyRequest, original: Original): RangeAnswer {
  const ifRange = request.headers['if-range'];
  if (request.method !== 'GET') return { kind: 'whole' };
  if (typeof ifRange === 'string' && !isSameTag(ifRange, tagOf(original))) return { kind: 'whole' };
  return answerRange(request.headers.range, original.sizeBytes);
}

async function sendBytes(
  request: FastifyRequest,
  reply: FastifyReply,
  original: Original,
  offsetBytes: number,
  lengthBytes: number,
): Promise<FastifyReply> {
  reply.header('content-length', lengthBytes);
  if (request.method === 'HEAD' || lengthBytes === 0) return sendNothing(request, reply);
  const file = await openKept(original.path, basename(original.path));
  const size = await sizeOrClose(file);
  if (size !== original.sizeBytes) {
    await file.close();
    throw new SetsideError(
      'original-changed',
      `expected ${original.sizeBytes} bytes of ${original.path}, got ${size}`,
    );
  }
  return reply.send(file.createReadStream({ start: offsetBytes, end: offsetBytes + lengthBytes - 1 }));
}

/** One that is gone is told by the frame and the house: asking for it is no failure of the station. */
async function openKept(path: string, name: string): Promise<FileHandle> {
  try {
    return await open(path, 'r');
  } catch (thrown) {
    if (!['ENOENT', 'ENOTDIR'].includes(errorCode(thrown))) throw thrown;
    const finding = { code: 'picture.original-gone', args: { name } };
    throw new Refusal('not-found', sentence(finding), finding);
  }
}

function tagOf(original: Original): string {
  return strongTag(original.sha256);
}
