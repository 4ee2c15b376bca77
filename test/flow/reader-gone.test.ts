import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

let home: string;
let station: RunningStation;

beforeAll(async () => {
  home = await newHome();
  station = await startStation(home);
});
afterAll(async () => {
  await station.stop();
  await removeHome(home);
});

/** Runs a command whose standard output nobody reads: the pipe's other end is shut before anything is written. */
async function unread(...words: string[]): Promise<{ code: number | null; stderr: string }> {
  const child = spawn(process.execPath, [binary, ...words], { stdio: ['ignore', 'pipe', 'pipe'] });
  child.stdout.destroy();
  let stderr = '';
  child.stderr.on('data', (chunk: Buffer) => {
    stderr += chunk.toString();
  });
  const [code] = await once(child, 'close');
  return { code: typeof code === 'number' ? code : null, stderr };
}

test('every command’s --help ends quietly when its reader goes away', async () => {
  const commands = ['station', 'job', 'camera', 'stand-in', 'develop', 'verify'];
  const ends = await Promise.all(commands.map((command) => unread(command, '--help')));
  for (const [index, { code, stderr }] of ends.entries()) {
    expect(stderr, commands[index]).toBe('');
    expect([0, 3]).toContain(code);
  }
});

test('so does a command in the middle of its work, and it does not say that all was done', async () => {
  const ftp = String(station.ready.ftp);
  const account = ['--user', station.user, '--password', station.password];
  const small = ['--size', '0.05', '--pace', '0', '--interval', '0', '--frames', '1000'];
  const cache = ['--cache', join(home, 'stand-in')];
  const { code, stderr } = await unread('stand-in', '--port', ftp, ...account, ...small, ...cache, '--json');
  expect(stderr).toBe('');
  expect(code).toBe(3);
});

test('lists and reports end quietly too', async () => {
  const commands = [
    ['camera', 'list', '--home', home],
    ['camera', 'diary', '--home', home, '--json'],
    ['verify', '--home', home, '--json'],
  ];
  const ends = await Promise.all(commands.map((words) => unread(...words)));
  expect(ends.map(({ stderr }) => stderr)).toEqual(['', '', '']);
});

test.skipIf(!hasProgram('curl'))('a station whose log nobody reads any more goes on receiving', async () => {
  const other = await newHome();
  const second = await startStation(other);
  try {
    second.process.stdout?.destroy();
    second.process.stderr?.destroy();
    // Every line of the log goes nowhere now.
    for (let round = 0; round < 3; round += 1) {
      const child = spawn('curl', ['-sS', '--user', `cam1:wrong${round}`, `${second.ftpUrl}/`]);
      await once(child, 'close');
    }
    await eventually('it answers', async () => (await second.frames()).length === 0);
    expect(second.process.exitCode).toBeNull();
    await second.stop();
    expect(second.process.exitCode).toBe(0);
  } finally {
    await second.kill();
    await removeHome(other);
  }
});
