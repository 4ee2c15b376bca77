import { createHash, randomUUID } from 'node:crypto';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Keep, openKeep } from '../../src/keep/index.ts';
import { type FtpDoor, startFtpDoor } from '../../src/receive/index.ts';
import { hasProgram, runProgram } from '../flow/clients.ts';
import { eventually, Wire } from './ftp-wire.ts';

/**
 * Resuming in every form, through the door into a real home on this computer's disk. K numbers are rules of
 * src/keep/SPEC.md, the others of src/receive/SPEC.md.
 */
const whole = new Uint8Array(3_000_000).map((_, index) => (Math.imul(index, 2_654_435_761) >>> 15) & 0xff);
const cut = 1_200_000;
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

let home: string;
let keep: Keep;
let door: FtpDoor;
let told: string[];

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-ftp-resume-'));
  told = [];
  await open();
});
afterEach(async () => {
  await close();
  await rm(home, { recursive: true });
});

async function open(): Promise<void> {
  keep = await openKeep({
    home,
    // The file tells its size as a picture's structure would.
    inspect: async ({ sizeBytes }) =>
      sizeBytes < whole.length ? { kind: 'cut', expectedBytes: whole.length } : { kind: 'whole' },
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
  const keeper = { admit: async () => ({ name: 'cam1', folder: keep.folderOf('cam1') }) };
  door = await startFtpDoor(
    { host: '127.0.0.1', port: 0, passive: { from: 0, to: 0 } },
    keeper,
    ({ finding }) => {
      told.push(finding.code);
    },
  );
}

async function close(): Promise<void> {
  await door.close();
  await keep.close();
}

/** Sends the first part and loses the data connection; the file is then broken off. */
async function breakOff(wire: Wire): Promise<void> {
  const data = await wire.data();
  await wire.command('STOR a.dng');
  data.write(whole.subarray(0, cut));
  await eventually(() => data.writableLength === 0, 'the first part is sent');
  await expect.poll(async () => (await keep.folderOf('cam1').stat('/a.dng'))?.sizeBytes).toBe(cut);
  data.resetAndDestroy();
  expect((await wire.reply()).code).toBe(426);
}

/** Sends what is missing behind commands that were said before. */
async function sendRest(wire: Wire, store: string, ...before: readonly string[]): Promise<void> {
  const data = await wire.data();
  const codes = await wire.codes(...before, store);
  expect(codes.at(-1)).toBe(150);
  data.end(whole.subarray(cut));
  expect((await wire.reply()).code).toBe(226);
}

async function expectOneOriginal(): Promise<void> {
  const kept: string[] = [];
  for await (const record of keep.records()) if (record.type === 'kept') kept.push(record.original);
  expect(kept).toHaveLength(1);
  const bytes = await readFile(join(home, kept[0] ?? ''));
  expect(sha256(bytes)).toBe(sha256(whole));
  expect(keep.brokenOff()).toEqual([]);
}

test('K2.2 SIZE, REST and STOR go on where the file broke off, on the same connection', async () => {
  const wire = await Wire.loggedIn(door.port);
  await breakOff(wire);
  expect((await wire.command('SIZE a.dng')).lines).toEqual([`213 ${cut}`]);
  await sendRest(wire, 'STOR a.dng', `REST ${cut}`);
  await expectOneOriginal();
});

test('K2.2 REST and STOR from another connection', async () => {
  await breakOff(await Wire.loggedIn(door.port));
  await sendRest(await Wire.loggedIn(door.port), 'STOR a.dng', `REST ${cut}`);
  await expectOneOriginal();
});

test('K2.2 APPE goes on at the end of what is held', async () => {
  await breakOff(await Wire.loggedIn(door.port));
  await sendRest(await Wire.loggedIn(door.port), 'APPE a.dng');
  await expectOneOriginal();
});

test('K3.5 resuming across a restart of the station, with REST and with APPE', async () => {
  for (const [store, before] of [
    ['STOR a.dng', [`REST ${cut}`]],
    ['APPE a.dng', []],
  ] as const) {
    await breakOff(await Wire.loggedIn(door.port));
    await close();
    await open();
    await sendRest(await Wire.loggedIn(door.port), store, ...before);
    await expectOneOriginal();
    await close();
    await rm(home, { recursive: true });
    home = await mkdtemp(join(tmpdir(), 'setside-ftp-resume-'));
    await open();
  }
});

test('K2.4 STOR from the start over a broken-off file makes it good', async () => {
  const wire = await Wire.loggedIn(door.port);
  await breakOff(wire);
  expect(await wire.store('STOR a.dng', whole)).toEqual([150, 226]);
  await expectOneOriginal();
});

test('K2.5 REST before the end of what is held begins with a copy of it, and nothing held is written over', async () => {
  const wire = await Wire.loggedIn(door.port);
  await breakOff(wire);
  const data = await wire.data();
  expect(await wire.codes('REST 700000', 'STOR a.dng')).toEqual([350, 150]);
  data.end(whole.subarray(700_000));
  expect((await wire.reply()).code).toBe(226);
  await expectOneOriginal();
  // Another file took its place: the one that broke off lies where it lay.
  const types: string[] = [];
  for await (const record of keep.records()) types.push(record.type);
  expect(types.filter((type) => type === 'made-good')).toHaveLength(1);
});

test('K2.7 REST behind what is held is 554, and the right offset works after it', async () => {
  const wire = await Wire.loggedIn(door.port);
  await breakOff(wire);
  await wire.data();
  expect(await wire.codes(`REST ${cut + 1}`, 'STOR a.dng')).toEqual([350, 554]);
  await sendRest(wire, 'STOR a.dng', `REST ${cut}`);
  await expectOneOriginal();
});

test('K2.7 REST and then the file from its beginning is kept as it came, never as whole, and told', async () => {
  const wire = await Wire.loggedIn(door.port);
  await breakOff(wire);
  const data = await wire.data();
  expect(await wire.codes(`REST ${cut}`, 'STOR a.dng')).toEqual([350, 150]);
  data.end(whole);
  expect((await wire.reply()).code).toBe(226);
  const [kept] = await keptFiles();
  expect(kept).toMatchObject({ sizeBytes: cut + whole.length, wholeness: 'unknown' });
  expect(told).toContain('line.upload-began-again');
});

/** NcFTP 3.2.6 says REST with `-z` and sends from the beginning all the same, as was seen. */
test.skipIf(!hasProgram('ncftpput'))(
  'K2.7 NcFTP that resumes makes no whole file of two beginnings',
  async () => {
    await breakOff(await Wire.loggedIn(door.port));
    const file = join(home, 'a.dng');
    await writeFile(file, whole);
    const login = ['-u', 'cam1', '-p', 'right', '-P', String(door.port)];
    const ran = await runProgram('ncftpput', ['-z', ...login, '127.0.0.1', '/', file]);
    expect(ran.code, ran.stderr).toBe(0);
    for (const { sizeBytes, wholeness } of await keptFiles())
      expect(wholeness).toBe(sizeBytes === whole.length ? 'whole' : 'unknown');
    // Sent again without resuming it is whole, beside the other.
    expect((await runProgram('ncftpput', [...login, '127.0.0.1', '/', file])).code).toBe(0);
    expect(await keptFiles()).toContainEqual(
      expect.objectContaining({ sizeBytes: whole.length, wholeness: 'whole', sha256: sha256(whole) }),
    );
  },
);

async function keptFiles(): Promise<{ sizeBytes: number; wholeness: string; sha256: string }[]> {
  const kept: { sizeBytes: number; wholeness: string; sha256: string }[] = [];
  for await (const record of keep.records()) if (record.type === 'kept') kept.push(record);
  return kept;
}
