import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { RenderAnswer, RenderJob } from '../../workers/index.ts';
import { jobWatch } from '../../workers/job-board.ts';
import type { RenderSource } from '../renderings.ts';
import { Tries } from './tries.ts';

const source: RenderSource = {
  ...{ path: '/raw', sha256: 'a', kind: 'raw', look: null, lookHash: 'b', balance: null, balanceHash: '' },
};
const answer: RenderAnswer = {
  ...{ widthPx: 1, heightPx: 1, renderedWidthPx: 1, renderedHeightPx: 1, bytes: 1, issues: [] },
  timings: { decodeMs: 0, developMs: 0, encodeMs: 0 },
};

let folder: string;
let jobs: RenderJob[];
/** Ends the rendering under way. */
let finish: (() => void)[];
let tries: Tries;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-tries-'));
  await writeFile(join(folder, 'left-by-a-kill.jpg'), 'x');
  [jobs, finish] = [[], []];
  tries = new Tries(folder, {
    render: async (job) => {
      jobs.push(job);
      await new Promise<void>((resolve) => finish.push(resolve));
      await writeFile(job.outPath, `picture ${jobs.length}`);
      return answer;
    },
  });
});

afterEach(() => rm(folder, { recursive: true, force: true }));

const attempt = (page: string, signal = new AbortController().signal): Promise<string> =>
  tries
    .of(page, signal, (either) => tries.render(source, 320, either))
    .then(
      (bytes) => Buffer.from(bytes).toString(),
      (thrown) => String(thrown.code ?? thrown),
    );

async function under(way: number): Promise<void> {
  while (finish.length < way) await new Promise((resolve) => setImmediate(resolve));
}

test('a picture is handed out and gone from the disk, and so is what an earlier run left', async () => {
  const tried = attempt('a');
  await under(1);
  expect(await readdir(folder)).toEqual([]);
  finish[0]?.();
  expect(await tried).toBe('picture 1');
  expect(await readdir(folder)).toEqual([]);
  expect(jobs[0]).toMatchObject({ path: '/raw', size: { longEdgePx: 320 }, format: 'jpeg' });
});

test('the newest try of a page takes the place of the one under way and of the one that waits', async () => {
  const [first, second, third] = [attempt('a'), attempt('a'), attempt('a')];
  expect([await first, await second]).toEqual(['try-overtaken', 'try-overtaken']);
  await under(1);
  // Of the overtaken ones at most the one that had begun is made to its end.
  finish[0]?.();
  if (jobs.length < 2) await Promise.race([third, under(2)]);
  finish[1]?.();
  expect(await third).toMatch(/^picture/);
  expect(jobs.length).toBeLessThanOrEqual(2);
});

test('what is under way is called off when a newer try takes its place, when it is called off, and not when it is done', async () => {
  const isOff = (job: number): boolean => {
    const { board } = jobs[job] ?? {};
    if (board === undefined) throw new Error('there is no such job');
    try {
      jobWatch(board).rows(1, 2);
      return false;
    } catch {
      return true;
    }
  };
  const first = attempt('a');
  await under(1);
  expect(isOff(0)).toBe(false);
  const stop = new AbortController();
  const second = attempt('a', stop.signal);
  expect(await first).toBe('try-overtaken');
  expect(isOff(0)).toBe(true);
  finish[0]?.();
  await under(2);
  stop.abort(new Error('called off'));
  expect(await second).toContain('called off');
  expect(isOff(1)).toBe(true);
  finish[1]?.();
  const left = new AbortController();
  const third = attempt('a', left.signal);
  await under(3);
  finish[2]?.();
  expect(await third).toBe('picture 3');
  left.abort();
  expect(isOff(2)).toBe(false);
  expect(await readdir(folder)).toEqual([]);
});

test('one is made at a time; another page’s waits, and is its own', async () => {
  const [a, b] = [attempt('a'), attempt('b')];
  await under(1);
  expect(jobs).toHaveLength(1);
  finish[0]?.();
  expect(await a).toBe('picture 1');
  await under(2);
  finish[1]?.();
  expect(await b).toBe('picture 2');
});

test('of so many pages at once the last is told that the station is busy', async () => {
  const first = attempt('p0');
  await under(1);
  const waiting = Array.from({ length: 8 }, (_, index) => attempt(`p${index + 1}`));
  expect(await attempt('one too many')).toBe('busy');
  for (let made = 0; made < 9; made++) {
    await under(made + 1);
    finish[made]?.();
  }
  expect(await Promise.all([first, ...waiting])).toHaveLength(9);
});

test('who hangs up is not waited for, and what has not begun is not made', async () => {
  const gone = new AbortController();
  const first = attempt('a');
  await under(1);
  const second = attempt('b', gone.signal);
  gone.abort(new Error('gone'));
  expect(await second).toContain('gone');
  finish[0]?.();
  await first;
  expect(jobs).toHaveLength(1);
});
