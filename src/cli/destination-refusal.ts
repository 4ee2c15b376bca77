import { errorCode, SetsideError } from '../base/index.ts';

/** That a destination is not there, with its name and what to do; every other thrown thing comes back as it is. */
export function inWordsOfDestination(thrown: unknown, name: string | null): unknown {
  if (name === null || errorCode(thrown) !== 'no-destination') return thrown;
  return new SetsideError('no-destination', `There is no destination ${name}`, {
    cause: thrown,
    cure: `setside destination list shows those there are; setside destination add ${name} makes it.`,
  });
}
