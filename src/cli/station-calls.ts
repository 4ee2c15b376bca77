import { SetsideError } from '../base/index.ts';
import { problem } from '../contract/index.ts';

/** Longest wait for an answer: a shot list of 500 lines is taken in within a second. */
const answerMsMax = 60_000;

/** A call to a running station, and what it answered. Rejects `no-station`, and the code of the problem it was told. */
export async function callStation(base: string, path: string, request: RequestInit = {}): Promise<Response> {
  const answer = await fetch(new URL(path, base), {
    ...request,
    signal: request.signal ?? AbortSignal.timeout(answerMsMax),
  }).catch((cause: unknown) => {
    throw new SetsideError('no-station', `no station answers at ${base}`, {
      cause,
      cure: 'Start it, or name another port with --web.',
    });
  });
  if (answer.ok) return answer;
  const told = problem.safeParse(await answer.json().catch(() => null));
  if (!told.success) throw new SetsideError('no-station', `${base} answered ${answer.status}: no station`);
  const { code, title, detail, cure } = told.data;
  // Where the detail says it all, the title before it would say the same twice.
  const message =
    code === 'link-needed'
      ? detail.replace(/\.$/, '')
      : detail === `${title}.`
        ? title
        : `${title}: ${detail}`;
  // At a terminal nobody looks into the calls; what is wrong with which value stands in the message.
  throw new SetsideError(code, message, cure === null || cure.includes('/api/') ? {} : { cure });
}

/** The same with a JSON body. */
export function sendJson(base: string, method: string, path: string, body: unknown): Promise<Response> {
  return callStation(base, path, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}
