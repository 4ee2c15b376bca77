import { open } from 'node:fs/promises';
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
  const { size } = await file.stat();
  reply.header('content-length', size);
  if (request.method === 'HEAD') {
    await file.close();
    return reply.send();
  }
  return reply.send(file.createReadStream());
}
