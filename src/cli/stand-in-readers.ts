import { InvalidArgumentError } from 'commander';
import { errorMessage } from '../base/index.ts';
import { type FileKind, fileKinds } from '../stand-in/index.ts';

/** An option that may be said several times. */
export function collect(text: string, earlier: readonly string[] = []): string[] {
  return [...earlier, text];
}

/** An option that may be said several times, each time read as `parse` does. */
export function collectBy<Order>(
  parse: (text: string) => Order,
): (text: string, earlier: readonly Order[]) => Order[] {
  return (text, earlier) => {
    try {
      return [...earlier, parse(text)];
    } catch (thrown) {
      throw new InvalidArgumentError(errorMessage(thrown));
    }
  };
}

/** A fingerprint as OpenSSH and the camera sheet write it. */
export function hostKeyIn(text: string): string {
  const print = /^SHA256:[\w+/]{43}(?==?$)/.exec(text.trim())?.[0];
  if (print === undefined) throw new Error('expected SHA256: and the 43 characters of the camera sheet');
  return print;
}

/** The files of a frame, in the order they are sent. */
export function readKinds(text: string): FileKind[] {
  const kinds = text.split(',').map((word) => fileKinds.find((kind) => kind === word.trim()));
  const known = kinds.filter((kind) => kind !== undefined);
  if (known.length === kinds.length && new Set(known).size === known.length) return known;
  throw new InvalidArgumentError(`expected ${fileKinds.join(', ')}, each once, separated by commas`);
}
