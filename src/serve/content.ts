import { type FileHandle, open } from 'node:fs/promises';
import { Readable } from 'node:stream';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Content } from './desk.ts';

/** Sends bytes or a whole file, with its length; for HEAD the length alone. */
export async function sendContent(
  request: FastifyRequest,
  reply: FastifyReply,
  content: Content,
): Promise<FastifyReply> {
  if (content.kind === 'bytes') return reply.send(content.bytes);
  const file = await open(content.path, 'r');
  const sizeBytes = await sizeOrClose(file);
  reply.header('content-length', sizeBytes);
  if (request.method === 'GET' && sizeBytes > 0) return reply.send(file.createReadStream());
  await file.close();
  return sendNothing(request, reply);
}

/**
 * Ends an answer without a body. For HEAD an empty stream, since the framework would set the length of the missing
 * body, 0, over the length of what GET would send (RFC 9110 section 9.3.2).
 */
export function sendNothing(request: FastifyRequest, reply: FastifyReply): FastifyReply {
  return request.method === 'HEAD' ? reply.send(Readable.from([])) : reply.send();
}

/** Size of an open file, bytes; closes it where that cannot be told. */
export async function sizeOrClose(file: FileHandle): Promise<number> {
  try {
    return (await file.stat()).size;
  } catch (error) {
    await file.close();
    throw error;
  }
}
