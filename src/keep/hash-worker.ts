import { createHash, type Hash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { parentPort } from 'node:worker_threads';
import { MiB } from '../base/index.ts';
import type { HashAnswer, HashRequest } from './hash-messages.ts';

/** Entry of a hash worker: SHA-256 away from the thread that receives. Runs from the built tree. */

interface Session {
  readonly hash: Hash;
  /** Settles when everything asked of the session so far is done. */
  last: Promise<unknown>;
}

const sessions = new Map<number, Session>();

parentPort?.on('message', (request: HashRequest) => {
  const session = sessions.get(request.session) ?? { hash: createHash('sha256'), last: Promise.resolve() };
  sessions.set(request.session, session);
  session.last = session.last
    .then(() => work(session, request))
    .then(answer, (cause: unknown) => {
      answer({ request: request.request, ok: false, message: String(cause) });
    });
});

function answer(message: HashAnswer): void {
  parentPort?.postMessage(message);
}

async function work(session: Session, request: HashRequest): Promise<HashAnswer> {
  let sha256: string | null = null;
  if (request.kind === 'bytes') session.hash.update(request.bytes);
  if (request.kind === 'file') await hashFile(session.hash, request.path, request.sizeBytes);
  // A copy, since a digest ends the hash it is taken of.
  if (request.kind === 'digest') sha256 = session.hash.copy().digest('hex');
  if (request.kind === 'end') sessions.delete(request.session);
  return { request: request.request, ok: true, sha256 };
}

async function hashFile(hash: Hash, path: string, sizeBytes: number): Promise<void> {
  if (sizeBytes === 0) return;
  let left = sizeBytes;
  for await (const chunk of createReadStream(path, { end: sizeBytes - 1, highWaterMark: MiB })) {
    // createReadStream without an encoding gives buffers.
    const bytes = chunk as Buffer;
    hash.update(bytes);
    left -= bytes.length;
  }
  if (left !== 0) throw new Error(`${path} is ${left} bytes shorter than the ${sizeBytes} to be hashed`);
}
