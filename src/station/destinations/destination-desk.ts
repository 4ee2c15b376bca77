import { SetsideError } from '../../base/index.ts';
import type { DestinationTest } from '../../contract/index.ts';
import { defaultSendLimits, tryPlace } from '../../send/index.ts';
import type { DestinationCalls } from '../../serve/index.ts';
import type { DestinationBook } from './destination-book.ts';
import { withDestination } from './with-destination.ts';

/** The calls about destinations, answered by the book. `isGoneTo`: whether a delivery that has not ended goes to the one of this name. */
export function createDestinationDesk(
  book: DestinationBook,
  isGoneTo: (name: string) => boolean,
): DestinationCalls {
  return {
    destinations: () => book.all(),
    putDestination: async (name, place, secret, newName = name) => {
      const source = secret === undefined ? undefined : ({ from: 'kept', text: secret } as const);
      if (newName === name) return book.put(name, place, source);
      await book.assertCanRename(name, newName);
      if (isGoneTo(name)) throw new SetsideError('destination-busy', `a delivery goes to ${name}`);
      await book.put(name, place, source);
      return { destination: await book.rename(name, newName), isNew: false };
    },
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
    findings: tried.findings
      .map((each) => withDestination(each, name))
      .map(({ code, args }) => ({ code, args: { ...args } })),
  };
}
