import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import type { Writable } from 'node:stream';

/** What a program printed and how it ended. */
export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a program to its end; never through a shell. */
export function runProgram(
  command: string,
  args: readonly string[],
  options: { input?: string; timeoutMs?: number; started?: (child: ChildProcess) => void } = {},
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      stdio: ['pipe', 'pipe', 'pipe'],
      timeout: options.timeoutMs ?? 60_000,
    });
    options.started?.(child);
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (chunk: Buffer) => {
      stdout += chunk.toString('latin1');
    });
    child.stderr.on('data', (chunk: Buffer) => {
      stderr += chunk.toString('latin1');
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    // A program that needs no input may have ended before this.
    child.stdin.on('error', () => {});
    child.stdin.end(options.input ?? '');
  });
}

/** Whether a program is on the PATH; a test that needs one that is not there is skipped by name. */
export function hasProgram(name: string): boolean {
  return (process.env.PATH ?? '').split(delimiter).some((folder) => existsSync(join(folder, name)));
}

export interface FtpLogin {
  readonly ftpUrl: string;
  readonly user: string;
  readonly password: string;
}

/** `curl -T file ftp://…/path`, verbose, so that replies can be read in `stderr`. */
export function curlUpload(
  login: FtpLogin,
  file: string,
  path: string,
  more: readonly string[] = [],
): Promise<Ran> {
  return runProgram('curl', [
    '-sS',
    '-v',
    '--user',
    `${login.user}:${login.password}`,
    '--ftp-create-dirs',
    ...more,
    '-T',
    file,
    `${login.ftpUrl}${path}`,
  ]);
}

/** `curl -T .`: uploads what is written to `input` as it is written, so that a test can stop in the middle. */
export function curlStream(
  login: FtpLogin,
  path: string,
): { readonly input: Writable; readonly ended: Promise<Ran> } {
  const args = [
    '-sS',
    '-v',
    '--user',
    `${login.user}:${login.password}`,
    '--ftp-create-dirs',
    '-T',
    '.',
    `${login.ftpUrl}${path}`,
  ];
  const child = spawn('curl', args, { stdio: ['pipe', 'pipe', 'pipe'], timeout: 120_000 });
  // A refused upload closes the pipe under our hands; how it ended is read from curl.
  child.stdin.on('error', () => {});
  let stderr = '';
  child.stderr.on('data', (chunk: Buffer) => {
    stderr += chunk.toString('latin1');
  });
  const ended = new Promise<Ran>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout: '', stderr }));
  });
  return { input: child.stdin, ended };
}
