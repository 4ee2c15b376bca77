import { errorCode, errorMessage, SetsideError } from '../base/index.ts';

/** One JSON document or line on standard output: for other programs. */
export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value)}\n`);
}

/** A line for a person. With `--json` it goes to standard error, so that standard output stays JSON. */
export function printLine(line: string, json: boolean): void {
  (json ? process.stderr : process.stdout).write(`${line}\n`);
}

/** A failure in plain words on standard error: what happened and what to do. Never a stack trace. */
export function printFailure(thrown: unknown): void {
  process.stderr.write(`setside: ${errorMessage(thrown)}\n`);
  if (thrown instanceof SetsideError) {
    if (thrown.cure !== undefined) process.stderr.write(`         ${thrown.cure}\n`);
  } else if (
    errorCode(thrown) === 'unknown' &&
    process.env.SETSIDE_TRACE === '1' &&
    thrown instanceof Error
  ) {
    process.stderr.write(`${thrown.stack ?? ''}\n`);
  }
}
