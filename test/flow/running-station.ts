import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import {
  type Frame,
  framePage,
  frame as frameSchema,
  type ReadyLine,
  readyLine,
} from '../../src/contract/index.ts';
import { portsOfOwn } from '../ports-of-own.ts';

/** Longer than a station takes to end on a busy machine, shorter than Vitest waits for a hook. */
const endMsMax = 60_000;

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** A station of its own in a process of its own, as a person would start it; ports are any free ones. */
export interface RunningStation {
  readonly ready: ReadyLine;
  readonly home: string;
  readonly process: ChildProcess;
  readonly ftpUrl: string;
  readonly user: string;
  readonly password: string;
  /** Ends it in order and waits; one that does not end is killed, and then this rejects with what it had said. */
  stop(): Promise<void>;
  /** kill -9, and waits until it is gone. */
  kill(): Promise<void>;
  stderr(): string;
  frames(): Promise<Frame[]>;
  frame(id: string): Promise<Frame>;
}

/** An empty home of its own below the system's temporary folder. */
export function newHome(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'setside-test-'));
}

export function removeHome(home: string): Promise<void> {
  return rm(home, { recursive: true, force: true });
}

/** `home` null: where the command itself chooses. */
export async function startStation(
  home: string | null,
  args: readonly string[] = [],
  environment: Readonly<Record<string, string>> = {},
): Promise<RunningStation> {
  const passive = portsOfOwn();
  const process_ = spawn(
    process.execPath,
    [
      binary,
      'station',
      ...(home === null ? [] : ['--home', home]),
      '--web',
      '0',
      '--links',
      '0',
      '--ftps',
      '0',
      '--sftp',
      '0',
      '--ftp',
      '0',
      '--passive',
      `${passive.from}-${passive.to}`,
      '--json',
      ...args,
    ],
    { stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, ...environment } },
  );
  let errors = '';
  process_.stderr.on('data', (chunk: Buffer) => {
    errors += chunk.toString();
  });
  const first: unknown = JSON.parse(await firstLine(process_, () => errors));
  const parsed = readyLine.safeParse(first);
  if (!parsed.success) throw new Error(`the station did not start: ${refusalIn(first)}`);
  const ready = parsed.data;
  const camera = ready.cameras[0];
  if (camera === undefined) throw new Error('the station names no camera');
  const get = async (path: string): Promise<unknown> => {
    const answer = await fetch(`${ready.web}${path}`);
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  };
  const ended = async (signal: NodeJS.Signals): Promise<void> => {
    if (process_.exitCode !== null || process_.signalCode !== null) return;
    const exit = once(process_, 'exit');
    process_.kill(signal);
    let late = false;
    const patience = setTimeout(() => {
      late = true;
      process_.kill('SIGKILL');
    }, endMsMax);
    await exit;
    clearTimeout(patience);
    if (late)
      throw new Error(
        `the station had not ended ${endMsMax / 1000} s after ${signal}; it was killed. It had said: ${errors}`,
      );
  };
  return {
    ready,
    home: ready.home,
    process: process_,
    ftpUrl: `ftp://127.0.0.1:${ready.ftp}`,
    user: camera.user,
    password: camera.password,
    stop: () => ended('SIGTERM'),
    kill: () => ended('SIGKILL'),
    stderr: () => errors,
    frames: async () => framePage.parse(await get('/api/v1/frames?limit=500')).frames,
    frame: async (id) => frameSchema.parse(await get(`/api/v1/frames/${id}`)),
  };
}

/** What a station that cannot start says in the place of its first line. */
function refusalIn(line: unknown): string {
  const said = typeof line === 'object' && line !== null && 'message' in line ? line.message : line;
  return typeof said === 'string' ? said : JSON.stringify(said);
}

async function firstLine(child: ChildProcess, errors: () => string): Promise<string> {
  if (child.stdout === null) throw new Error('no standard output');
  const lines = createInterface({ input: child.stdout });
  return new Promise((resolve, reject) => {
    // A failure comes as a document too; then the end that follows is what is told, with the words beside it.
    lines.once('line', (line) => (line.startsWith('{"error"') ? undefined : resolve(line)));
    child.once('exit', (code) => reject(new Error(`the station ended with ${code}: ${errors()}`)));
  });
}

/** Asks again until `check` gives something, or fails with what was seen last. */
export async function eventually<T>(
  what: string,
  check: () => Promise<T | null | undefined | false>,
  withinMs = 30_000,
): Promise<T> {
  const deadline = Date.now() + withinMs;
  let last: unknown;
  while (Date.now() < deadline) {
    try {
      const value = await check();
      if (value !== null && value !== undefined && value !== false) return value;
      last = value;
    } catch (error) {
      last = error;
    }
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error(`${what}: not within ${withinMs} ms; last seen: ${String(last)}`);
}
