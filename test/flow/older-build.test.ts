import { cp, mkdir, mkdtemp, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Ran, runProgram } from './clients.ts';

const checkout = join(import.meta.dirname, '../..');
let folder: string;
const hash =
  "import('./scripts/outgrown.mjs').then((m) => m.hashOf(m.sourcesOf(process.argv[1]), process.argv[1]))";

/** A checkout of one source, built of it as it stands now. */
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-older-'));
  for (const path of ['bin/setside.mjs', 'scripts/outgrown.mjs']) {
    await cp(join(checkout, path), join(folder, path));
  }
  await mkdir(join(folder, 'dist/run'), { recursive: true });
  await mkdir(join(folder, 'src'));
  await mkdir(join(folder, '.cache'));
  await writeFile(join(folder, 'dist/run/main.js'), "process.stdout.write('ran');");
  await writeFile(join(folder, 'src/a.ts'), 'first');
  const print = `process.chdir(process.argv[1]); ${hash}.then((text) => process.stdout.write(text))`;
  const { stdout } = await runProgram(process.execPath, ['-e', print, folder]);
  expect(stdout).toMatch(/^[0-9a-f]{64}$/);
  await writeFile(join(folder, '.cache/built'), stdout);
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const setside = (): Promise<Ran> => runProgram(process.execPath, [join(folder, 'bin/setside.mjs')]);

test('a command of an older build runs and says so; sources that are only newer by their time are no reason to', async () => {
  const source = join(folder, 'src/a.ts');
  expect(await setside()).toMatchObject({ code: 0, stdout: 'ran', stderr: '' });
  const later = new Date(Date.now() + 60_000);
  await utimes(source, later, later);
  expect(await setside()).toMatchObject({ stdout: 'ran', stderr: '' });
  await writeFile(source, 'second');
  await utimes(source, later, later);
  const older = await setside();
  expect(older).toMatchObject({ code: 0, stdout: 'ran' });
  expect(older.stderr).toContain('older build');
  await writeFile(join(folder, 'src/a.test.ts'), 'a test is not built');
  await writeFile(source, 'first');
  expect((await setside()).stderr).toBe('');
});
