import { execFile } from 'node:child_process';
import { errorCode } from '../../base/index.ts';
import { SendFailure } from '../../send/index.ts';
import type { SecretSource } from './secret-source.ts';

/** A keyring may ask a person to unlock it, who has to walk to the screen. */
const commandMsMax = 60_000;
/** More than any private key has. */
const secretBytesMax = 65_536;

/** The secret now. Rejects `send.secret-failed`, which never holds what a program printed. */
export async function secretFrom(source: SecretSource): Promise<string> {
  switch (source.from) {
    case 'kept':
      return source.text;
    case 'environment':
      return orFail(process.env[source.variable] ?? '', `$${source.variable}`);
    case 'command':
      return orFail(await printedBy(source.words), source.words[0] ?? '');
  }
}

function orFail(secret: string, why: string): string {
  if (secret !== '') return secret;
  throw new SendFailure('stop', 'send.secret-failed', { why });
}

/** The first thing a program prints, without the line end behind it. No shell sees the words. */
function printedBy([program = '', ...words]: readonly string[]): Promise<string> {
  const options = { timeout: commandMsMax, maxBuffer: secretBytesMax, windowsHide: true };
  return new Promise((resolve, reject) => {
    execFile(program, words, options, (failure, printed) => {
      if (failure === null) {
        resolve(printed.replace(/\r?\n$/, ''));
        return;
      }
      // Its message holds the words, and what it printed: neither goes further.
      const why = failure.killed === true ? 'time' : String(failure.code ?? errorCode(failure));
      reject(new SendFailure('stop', 'send.secret-failed', { why: `${program}: ${why}` }));
    });
  });
}
