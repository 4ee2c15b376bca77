import { type Problem, problem } from '../../contract/index.ts';
import { screenId } from './screen.ts';

/** A call is given up after this long: a station on the same network answers in milliseconds or not at all. */
export const callMsMax = 8_000;

/** An answer that is not what the contract says; the page is older than the station, or the other way round. */
export class NotUnderstood extends Error {}

/** The station said no, in its own words. */
export class Refused extends Error {
  /** Stable, such as `version-changed`. */
  readonly code: string;

  constructor(code: string, words: string) {
    super(words);
    this.code = code;
  }
}

/** Changes something with a JSON body; `version` goes along as `If-Match`. Rejects with {@link Refused}. */
export function sendBody(
  method: 'POST' | 'PATCH' | 'PUT' | 'DELETE',
  address: string,
  body: object | null,
  version?: number,
): Promise<unknown> {
  return ask(address, AbortSignal.timeout(callMsMax), jsonCall(method, body, version));
}

export function jsonCall(method: string, body: object | null, version?: number): RequestInit {
  return {
    method,
    headers: {
      'setside-screen': screenId,
      ...(body === null ? {} : { 'content-type': 'application/json' }),
      ...(version === undefined ? {} : { 'if-match': `"${version}"` }),
    },
    ...(body === null ? {} : { body: JSON.stringify(body) }),
  };
}

/** The answer as parsed JSON. Rejects with {@link Refused} where the station says no, and as `fetch` does. */
export async function ask(address: string, signal: AbortSignal, call: RequestInit = {}): Promise<unknown> {
  const answer = await answerOf(address, signal, call);
  return answer.status === 204 ? null : answer.json();
}

/** The same, for who has to know the status. */
export async function answerOf(address: string, signal: AbortSignal, call: RequestInit): Promise<Response> {
  const answer = await fetch(address, { ...call, signal });
  if (answer.ok) return answer;
  const said = problem.safeParse(await answer.json().catch(() => null));
  if (said.success) throw new Refused(said.data.code, problemWords(said.data));
  throw new Refused('not-taken', `${address}: ${answer.status}`);
}

/** Whether the station may have done it all the same: it gave no answer, in time or at all. */
export function isUnknown(thrown: unknown): boolean {
  return !(thrown instanceof Refused) && !(thrown instanceof NotUnderstood);
}

/** What a person is told where a call was refused or did not come through. */
export function wordsOf(thrown: unknown, otherwise: string): string {
  return thrown instanceof Refused ? thrown.message : otherwise;
}

function problemWords({ title, cure }: Problem): string {
  return cure === undefined || cure === null ? `${title}.` : `${title}. ${cure}`;
}

interface Schema<T> {
  safeParse(value: unknown): { success: true; data: T } | { success: false; error: Error };
}

export function parsed<T>(schema: Schema<T>, value: unknown): T {
  const result = schema.safeParse(value);
  if (!result.success) throw new NotUnderstood(result.error.message);
  return result.data;
}
