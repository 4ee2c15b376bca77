import type { FastifyReply } from 'fastify';

/** Aborts when the caller has hung up before the answer was sent. */
export function callerGone({ raw }: FastifyReply): AbortSignal {
  const gone = new AbortController();
  raw.once('close', () => {
    if (!raw.writableFinished) gone.abort();
  });
  return gone.signal;
}
