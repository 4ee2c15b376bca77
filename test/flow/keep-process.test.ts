import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type JournalRecord, type Keep, openKeep, verifyOriginals } from '../../src/keep/index.ts';

let home = '';
const children: ChildProcess[] = [];

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-keep-'));
});

afterEach(async () => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
  await rm(home, { recursive: true, force: true });
});

interface Child {
  readonly process: ChildProcess;
  readonly lines: string[];
  /** Settles when so many lines are there. */
  reach(count: number): Promise<void>;
  /** kill -9, and waits until it is gone and all it said is read. */
  kill(): Promise<void>;
}

function startChild(role: string): Child {
  const child = spawn(process.execPath, [join(import.meta.dirname, 'keep-child.mjs'), role, home], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  children.push(child);
  const lines: string[] = [];
  const reader = createInterface({ input: child.stdout });
  const closed = once(reader, 'close');
  reader.on('line', (line) => lines.push(line));
  return {
    process: child,
    lines,
    reach: async (count) => {
      while (lines.length < count) await Promise.race([once(reader, 'line'), failWhenClosed(closed)]);
    },
    kill: async () => {
      child.kill('SIGKILL');
      await closed;
    },
  };
}

async function failWhenClosed(closed: Promise<unknown>): Promise<never> {
  await closed;
  throw new Error('the child ended too early');
}

function openHere(): Promise<Keep> {
  return openKeep({
    home,
    inspect: async () => ({ kind: 'whole' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
}

test('K1.2 kill -9 in the middle of uploads, several times over: every acknowledged file is there', async () => {
  const acknowledged = new Map<string, string>();
  for (let round = 1; round <= 4; round++) {
    const child = startChild('endless');
    await child.reach(round * 5);
    await child.kill();
    for (const line of child.lines) {
      const [name = '', sha256 = ''] = line.split(' ');
      acknowledged.set(name, sha256);
    }
  }
  const keep = await openHere();
  const kept = new Map<string, string>();
  for await (const record of keep.records()) if (isKept(record)) kept.set(record.name, record.sha256);
  for (const [name, sha256] of acknowledged) expect([name, kept.get(name)]).toEqual([name, sha256]);
  expect(keep.troubles).toEqual([]);
  await keep.close();
  const report = await verifyOriginals(home);
  expect(report.findings).toEqual([]);
  expect(report.files).toBeGreaterThanOrEqual(acknowledged.size);
});

function isKept(record: JournalRecord): record is Extract<JournalRecord, { type: 'kept' }> {
  return record.type === 'kept';
}

test('K6.4 a home in use by another process is refused with its number, and free as soon as that is killed', async () => {
  const child = startChild('hold');
  await child.reach(1);
  await expect(openHere()).rejects.toMatchObject({
    code: 'home-in-use',
    message: expect.stringContaining(`process ${child.process.pid}`),
  });
  await child.kill();
  const keep = await openHere();
  await expect(openHere()).rejects.toMatchObject({ code: 'home-in-use' });
  await keep.close();
  await (await openHere()).close();
});
