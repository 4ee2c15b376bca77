import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Kysely } from 'kysely';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDatabase } from './database.ts';
import { sqlite } from './dialects.ts';
import { migrations } from './migrations/index.ts';
import { openRegister } from './register.ts';

let folder: string;
let path: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-upgrade-'));
  path = join(folder, 'setside.db');
});

afterEach(() => rm(folder, { recursive: true, force: true }));

/** The tables as they were after so many steps, with a frame in them. */
async function databaseAt(steps: number): Promise<void> {
  const then = Object.fromEntries(Object.entries(migrations).slice(0, steps));
  const db = await openDatabase(path, sqlite, then);
  const frame = {
    id: 'f1',
    job: 'QM-26',
    camera: 'cam1',
    shot: null as string | null,
    name: 'X.DNG',
    order_ms: 5,
    version: 1,
  };
  const times = { first_byte_ms: null, last_byte_ms: null, kept_ms: null };
  // The columns of that time: today's types know more.
  const ofThatTime = db as unknown as Kysely<{ frames: typeof frame & typeof times & { listed: number } }>;
  await ofThatTime
    .insertInto('frames')
    .values({ ...frame, ...times, listed: 1 })
    .execute();
  await db.insertInto('marks').values({ frame: 'f1', mark: 'hero', set_ms: 6 }).execute();
  await db.destroy();
}

test.each(Object.keys(migrations).map((name, index) => [name, index + 1] as const))(
  'a register as step %s left it opens today, with what it held',
  async (_name, steps) => {
    await databaseAt(steps);
    const register = await openRegister(path);
    expect(await register.frame('f1')).toMatchObject({ name: 'X.DNG', mark: 'hero', files: [] });
    await register.close();
  },
);

test('a register that a later version made is refused with a sentence, and left as it is', async () => {
  const later = { ...migrations, '9999-later': { up: async () => {} } };
  await (await openDatabase(path, sqlite, later)).destroy();
  for (let tries = 0; tries < 2; tries++) {
    await expect(openRegister(path)).rejects.toMatchObject({
      code: 'register-newer',
      message: expect.stringContaining('9999-later'),
      cure: expect.stringContaining('later'),
    });
  }
});

test('a job of before shots had a table of their own has them, and equals one made anew from its journal', async () => {
  const then = Object.fromEntries(Object.entries(migrations).slice(0, 4));
  const db = await openDatabase(path, sqlite, then);
  const shots = JSON.stringify([
    { id: 'mug', name: 'Mug' },
    { id: 'jug', name: 'Jug' },
  ]);
  const job = { code: 'QM-26', title: 'Autumn', client: 'Quillmere', shots, opened_ms: 1000, open: 1 };
  const ofThatTime = db as unknown as Kysely<{ jobs: typeof job }>;
  await ofThatTime.insertInto('jobs').values(job).execute();
  await db.insertInto('progress').values({ id: 1, applied_seq: 1 }).execute();
  await db.destroy();
  const upgraded = await openRegister(path);
  const anew = await openRegister(join(folder, 'anew.db'));
  await anew.apply({
    seq: 1,
    atMs: 1000,
    type: 'job-opened',
    code: 'QM-26',
    title: 'Autumn',
    client: 'Quillmere',
    shots: JSON.parse(shots),
  });
  expect((await upgraded.jobs())[0]?.shots.map(({ name }) => name)).toEqual(['Mug', 'Jug']);
  expect(await upgraded.dump()).toEqual(await anew.dump());
  await upgraded.close();
  await anew.close();
});
