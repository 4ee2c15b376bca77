import { errorCode, errorMessage, SetsideError } from '../base/index.ts';
import { knownCodes, sentence } from '../words/index.ts';

/** One JSON document or line on standard output: for other programs. */
export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value)}\n`);
}

/** A line for a person. With `--json` it goes to standard error, so that standard output stays JSON. */
export function printLine(line: string, json: boolean): void {
  (json ? process.stderr : process.stdout).write(`${line}\n`);
}

/**
 * A failure in plain words on standard error: what happened and what to do. Never a stack trace. With `json` the same
 * goes to standard output as a document, so that a program that reads there hears of it too.
 */
export function printFailure(thrown: unknown, json = false): void {
  const cure = cureOf(thrown);
  process.stderr.write(`setside: ${failureText(thrown)}\n`);
  if (cure !== undefined) process.stderr.write(`         ${cure}\n`);
  if (json) {
    printJson({
      error: toldCode(thrown),
      message: failureText(thrown),
      ...(cure === undefined ? {} : { cure }),
    });
  }
  if (errorCode(thrown) === 'unknown' && process.env.SETSIDE_TRACE === '1' && thrown instanceof Error) {
    process.stderr.write(`${thrown.stack ?? ''}\n`);
  }
}

/** Codes of the system by our own words: what a program reads of a command is the same on every system. */
const systemCodes: Readonly<Record<string, string>> = {
  ENOENT: 'no-such-file',
  EACCES: 'not-allowed',
  EPERM: 'not-allowed',
  EISDIR: 'is-a-folder',
  ENOTDIR: 'not-a-folder',
  EEXIST: 'is-there-already',
  ENOSPC: 'disk-full',
  EROFS: 'read-only',
  EIO: 'disk-failed',
};

/** The code of a failure, as `--json` gives it. */
export function toldCode(thrown: unknown): string {
  const code = errorCode(thrown);
  return systemCodes[code] ?? code;
}

/** What happened, as a sentence. `path` is the file it happened to, where the system's own words do not say. */
export function failureText(thrown: unknown, path = pathOf(thrown)): string {
  const code = `system.${errorCode(thrown)}`;
  return knownCodes().includes(code) ? sentence({ code, args: { path } }) : errorMessage(thrown);
}

/** What a person can do about it: what the failure brings, else what is said of its code. */
export function cureOf(thrown: unknown): string | undefined {
  const own = thrown instanceof SetsideError ? thrown.cure : undefined;
  const code = `cure.${errorCode(thrown)}`;
  return own ?? (knownCodes().includes(code) ? sentence({ code, args: {} }) : undefined);
}

/** A file of several that failed, while the others go on: a document on standard output, or a line on standard error. */
export function printFileFailure(path: string, thrown: unknown, json: boolean): void {
  const message = failureText(thrown, path);
  const cure = cureOf(thrown);
  if (json) printJson({ path, error: toldCode(thrown), message, ...(cure === undefined ? {} : { cure }) });
  else process.stderr.write(`${path}: ${cure === undefined ? message : `${withStop(message)} ${cure}`}\n`);
}

/** With a stop at its end, for what comes behind it. */
function withStop(text: string): string {
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}

function pathOf(thrown: unknown): string {
  const known = typeof thrown === 'object' && thrown !== null && 'path' in thrown ? thrown.path : undefined;
  return typeof known === 'string' ? known : 'such file';
}
