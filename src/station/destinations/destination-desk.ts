import type { DestinationTest } from '../../contract/index.ts';
import { defaultSendLimits, tryPlace } from '../../send/index.ts';
import type { DestinationCalls } from '../../serve/index.ts';
import type { DestinationBook } from './destination-book.ts';

/** The calls about destinations, answered by the book. */
export function createDestinationDesk(book: DestinationBook): DestinationCalls {
  return {
    destinations: () => book.all(),
    putDestination: (name, place, secret) =>
      book.put(name, place, secret === undefined ? undefined : { from: 'kept', text: secret }),
    forgetDestination: (name) => book.forget(name),
    testDestination: (name, signal) => testDestination(book, name, signal),
  };
}

/** Sends a small file there and takes it away; null where there is none of that name. */
export async function testDestination(
  book: DestinationBook,
  name: string,
  signal: AbortSignal,
): Promise<DestinationTest | null> {
  const found = await book.one(name);
  if (found === null) return null;
  const tried = await tryPlace(found.place, () => book.secretOf(name), defaultSendLimits, signal);
  return {
    ok: tried.proof !== null,
    hostKey: tried.hostKey,
    findings: tried.findings.map(({ code, args }) => ({ code, args: { ...args } })),
  };
}
