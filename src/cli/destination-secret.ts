import { readFile } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';
import { errorCode, SetsideError } from '../base/index.ts';
import type { DestinationPlace } from '../contract/index.ts';
import type { SecretSource } from '../station/index.ts';

/** How a person says where the secret comes from. */
export interface SecretFlags {
  readonly key?: string;
  readonly secretVariable?: string;
  readonly secretProgram: boolean;
}

/** Longer is no secret that a server takes. */
const secretCharactersMax = 16_384;

/** Undefined for a place that needs none. Never an option's value: those stand in the list of processes and in a shell's history. */
export async function secretGiven(
  place: DestinationPlace,
  { key, secretVariable, secretProgram }: SecretFlags,
  words: readonly string[],
): Promise<SecretSource | undefined> {
  if (words.length > 0 !== secretProgram)
    throw wrong('--secret-program is followed by -- and the words of a program');
  if (place.kind === 'folder') return undefined;
  if (secretProgram) return { from: 'command', words: [...words] };
  if (secretVariable !== undefined) {
    if (!/^[A-Za-z_][A-Za-z0-9_]*$/.test(secretVariable)) throw wrong(`${secretVariable} names no variable`);
    return { from: 'environment', variable: secretVariable };
  }
  const text = key === undefined ? await lineFromInput() : await keyFrom(key);
  if (text === '' || text.length > secretCharactersMax) throw wrong('there is no secret on standard input');
  return { from: 'kept', text };
}

async function keyFrom(path: string): Promise<string> {
  const text = await readFile(path, 'utf8').catch((cause: unknown) => {
    throw new SetsideError('bad-destination', `${path} cannot be read (${errorCode(cause)})`, { cause });
  });
  if (/^-----BEGIN [A-Z ]*PRIVATE KEY-----/.test(text)) return text;
  throw new SetsideError('bad-destination', `${path} holds no private key`, {
    cure: 'Name the file without .pub at its end.',
  });
}

/** The first line; at a terminal it is asked for, and not shown as it is typed. */
function lineFromInput(): Promise<string> {
  const isTerminal = process.stdin.isTTY === true;
  if (isTerminal) process.stderr.write('Secret (it is not shown): ');
  const silent = new Writable({ write: (_bytes, _encoding, done) => done() });
  const lines = createInterface({ input: process.stdin, output: silent, terminal: isTerminal });
  return new Promise((resolve) => {
    lines.once('line', (line) => {
      resolve(line);
      lines.close();
    });
    lines.once('close', () => {
      if (isTerminal) process.stderr.write('\n');
      resolve('');
    });
  });
}

function wrong(message: string): SetsideError {
  return new SetsideError('bad-destination', message, {
    cure: 'setside destination add --help shows how a secret is given.',
  });
}
