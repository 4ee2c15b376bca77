import { realpath } from 'node:fs/promises';
import { errorCode, errorMessage, SetsideError } from '../base/index.ts';
import { callStation } from './station-calls.ts';

/** Whose station it is that answers, or what came of asking. */
export type HomeAnswer =
  | { readonly is: 'this' }
  /** Another home's. */
  | { readonly is: 'other'; readonly home: string }
  /** Nobody listens there, or what does is no station: one that was killed left its address. */
  | { readonly is: 'gone'; readonly why: string }
  /** Something is there, and it did not come to an answer: no proof that none runs. */
  | { readonly is: 'silent'; readonly why: string };

/**
 * How long each try waits, ms. An answer from this computer takes some thousandths of a second, a very busy station's a few seconds; the
 * second try has a source port of its own, which a firewall that dropped the first may let through.
 */
export const tryMs: readonly number[] = [5_000, 15_000];

/** Asks what answers at an address whether it is the station of a folder, once more where that came to nothing. Never rejects. */
export async function askHome(
  address: string,
  folder: string,
  waitsMs: readonly number[] = tryMs,
): Promise<HomeAnswer> {
  let answer: HomeAnswer = { is: 'silent', why: 'it was not asked' };
  for (const ms of waitsMs) {
    answer = await askOnce(address, folder, ms);
    if (answer.is === 'this' || answer.is === 'other') return answer;
  }
  return answer;
}

async function askOnce(address: string, folder: string, ms: number): Promise<HomeAnswer> {
  try {
    const { station } = await import('../contract/index.ts');
    const called = await callStation(address, '/api/v1/station', { signal: AbortSignal.timeout(ms) });
    const told = station.safeParse(await called.json().catch(() => null));
    if (!told.success)
      return { is: 'gone', why: 'what answers there is no station, or one of another edition' };
    const { home } = told.data;
    const [its, own] = await Promise.all([home, folder].map((each) => realpath(each).catch(() => each)));
    return its === own ? { is: 'this' } : { is: 'other', home };
  } catch (thrown) {
    return cameToNothing(thrown, ms);
  }
}

function cameToNothing(thrown: unknown, ms: number): HomeAnswer {
  if (!(thrown instanceof SetsideError)) return { is: 'silent', why: errorMessage(thrown) };
  // What a call broke upon is the cause; without one an answer came, and was not a station's.
  if (thrown.code === 'no-station' && thrown.cause === undefined) return { is: 'gone', why: thrown.message };
  if (thrown.code !== 'no-station') return { is: 'silent', why: thrown.message };
  if (thrown.cause instanceof Error && thrown.cause.name === 'TimeoutError')
    return { is: 'silent', why: `no answer within ${ms / 1000} seconds` };
  const system = thrown.cause instanceof Error ? thrown.cause.cause : null;
  const code = errorCode(system);
  if (code === 'ECONNREFUSED') return { is: 'gone', why: 'nobody listens there' };
  // The fetch standard forbids some ports (fetch.spec.whatwg.org, "port blocking"): no page could be opened there either.
  if (errorMessage(system) === 'bad port') return { is: 'gone', why: 'no station can have that port' };
  return { is: 'silent', why: errorMessage(system ?? thrown.cause) };
}
