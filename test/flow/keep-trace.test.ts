import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { hasProgram, runProgram } from './clients.ts';

/**
 * What the system was really asked, seen by strace(1), whatever our own code believes. Durability of each step is that
 * of fdatasync(2) and fsync(2): "the call blocks until the device reports that the transfer has completed"; for names,
 * fsync(2), Notes: "an explicit fsync() on a file descriptor for the directory is also needed".
 */
const canTrace = process.platform === 'linux' && hasProgram('strace') && (await straceWorks());

async function straceWorks(): Promise<boolean> {
  return (await runProgram('strace', ['-o', '/dev/null', 'true'])).code === 0;
}

interface Call {
  readonly text: string;
  /** Line numbers of the trace: when it was asked, and when it was answered. */
  readonly asked: number;
  readonly answered: number;
}

/** strace prints a call that another thread interrupts in two lines: `… <unfinished ...>` and `<... name resumed> …`. */
function parseTrace(text: string): Call[] {
  const calls: Call[] = [];
  const unfinished = new Map<string, { text: string; asked: number }>();
  for (const [number, line] of text.split('\n').entries()) {
    const [, pid = '', rest = ''] = /^(\d+) +(.*)$/.exec(line) ?? [];
    const resumed = /^<\.\.\. \w+ resumed>(.*)$/.exec(rest);
    if (rest.endsWith('<unfinished ...>')) {
      unfinished.set(pid, { text: rest, asked: number });
    } else if (resumed !== null) {
      const begun = unfinished.get(pid);
      if (begun !== undefined) calls.push({ ...begun, text: begun.text + resumed[1], answered: number });
    } else if (rest !== '') {
      calls.push({ text: rest, asked: number, answered: number });
    }
  }
  return calls;
}

test.skipIf(!canTrace)(
  'K1.1 strace: write, fdatasync, rename, sync of both folders, journal write and sync, and only then the answer',
  async () => {
    const home = await mkdtemp(join(tmpdir(), 'setside-trace-'));
    const trace = join(home, 'trace.txt');
    const child = join(import.meta.dirname, 'keep-child.mjs');
    const calls = 'write,pwrite64,pwritev,writev,fdatasync,fsync,rename,renameat,renameat2';
    const args = ['-f', '-y', '-s', '200', '-e', `trace=${calls}`, '-o', trace];
    try {
      const ran = await runProgram('strace', [...args, process.execPath, child, 'upload', home, '1']);
      expect(ran).toMatchObject({ code: 0, stdout: 'acknowledged\n' });
      const seen = parseTrace(await readFile(trace, 'utf8'));
      const last = (what: RegExp): Call => {
        const call = seen.findLast(({ text }) => what.test(text));
        if (call === undefined) throw new Error(`${what} is nowhere in the trace`);
        return call;
      };
      const inOrder: readonly [string, Call][] = [
        ['the last bytes', last(/^pwrite(v|64)\(\d+<[^>]*\/incoming\//)],
        ['their sync', last(/^fdatasync\(\d+<[^>]*\/incoming\//)],
        ['the move', last(/^rename.*\/incoming\/.*\/originals\/cam1\/X\.DNG"/)],
        ['sync of the folder that gained', last(/^fsync\(\d+<[^>]*\/originals\/cam1>/)],
        ['sync of the folder that lost', last(/^fsync\(\d+<[^>]*\/incoming>/)],
        ['the kept record', last(/^pwrite64\(\d+<[^>]*\.journal>.*\\"type\\":\\"kept\\"/)],
        ['its sync', last(/^fdatasync\(\d+<[^>]*\.journal>/)],
        ['the answer', last(/^write\(1<.*"acknowledged\\n"/)],
      ];
      for (const [i, [name, call]] of inOrder.entries()) {
        const next = inOrder[i + 1];
        if (next === undefined) continue;
        expect(call.answered, `${name} is done before ${next[0]} is asked for`).toBeLessThan(next[1].asked);
      }
      // Folders made for the file have names of their own to lose.
      for (const folder of ['/jobs', '/jobs/QM-26', '/jobs/QM-26/originals']) {
        expect(last(new RegExp(`^fsync\\(\\d+<[^>]*${home}${folder}>`)).answered).toBeLessThan(
          inOrder[2]?.[1].asked ?? 0,
        );
      }
    } finally {
      await rm(home, { recursive: true, force: true });
    }
  },
);
