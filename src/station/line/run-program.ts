import { execFile } from 'node:child_process';

/** Nobody waits longer for what a program of the system says. */
const patienceMs = 4000;
/** Rule sets of a busy machine have some thousand lines. */
const outputBytesMax = 8e6;

/**
 * What a program of the system prints; null where it is not there, fails, or takes too long. English, so that it can be
 * read, and nothing of it is ever run by a shell.
 */
export function outputOf(command: string, args: readonly string[]): Promise<string | null> {
  const options = {
    timeout: patienceMs,
    maxBuffer: outputBytesMax,
    env: { ...process.env, LC_ALL: 'C', LANG: 'C' },
    windowsHide: true,
  };
  return new Promise((resolve) => {
    execFile(command, args, options, (failed, stdout) => resolve(failed === null ? stdout : null));
  });
}
