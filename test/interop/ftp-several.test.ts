import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { simulatedDisk } from '../../src/keep/testing/simulated-disk.ts';
import { openSimulatedHome, home as simulatedHome } from '../../src/keep/testing/simulated-home.ts';
import { inFrontOf, openHome } from './ftp-home.ts';
import { eventually, Wire } from './ftp-wire.ts';

/**
 * Several connections of one camera at once, and a disk that takes its time. Numbers are rules of src/receive/SPEC.md,
 * K numbers of src/keep/SPEC.md.
 */
const raw = new Uint8Array(900_000).map((_, index) => (Math.imul(index, 2_246_822_519) >>> 11) & 0xff);
const jpeg = raw.slice(0, 300_000).reverse();

test('K3.7 raw and JPEG of one press, on two connections at once, are two files of one frame', async () => {
  await using hall = await openHome();
  const [one, two] = [await Wire.loggedIn(hall.door.port), await Wire.loggedIn(hall.door.port)];
  const [first, second] = [await one.data(), await two.data()];
  expect((await one.command('STOR SET_0001.DNG')).code).toBe(150);
  expect((await two.command('STOR SET_0001.JPG')).code).toBe(150);
  // Turn by turn, so that neither ends before the other is half there.
  first.write(raw.subarray(0, 400_000));
  second.write(jpeg.subarray(0, 100_000));
  first.end(raw.subarray(400_000));
  second.end(jpeg.subarray(100_000));
  expect([(await one.reply()).code, (await two.reply()).code]).toEqual([226, 226]);

  const kept = (await hall.records()).filter(({ type }) => type === 'kept');
  expect(new Set(kept.map((record) => 'frame' in record && record.frame)).size).toBe(1);
  for (const record of kept) {
    if (record.type !== 'kept') continue;
    const bytes = await readFile(join(hall.home, record.original));
    expect(bytes.equals(record.name.endsWith('.DNG') ? raw : jpeg), record.name).toBe(true);
  }
  expect(kept).toHaveLength(2);
});

test('6.9 one name from two connections at once: one is kept, the other is told to wait, nothing is mixed', async () => {
  await using hall = await openHome();
  const [one, two] = [await Wire.loggedIn(hall.door.port), await Wire.loggedIn(hall.door.port)];
  const first = await one.data();
  expect((await one.command('STOR a.dng')).code).toBe(150);
  const second = await two.data();
  two.send('STOR a.dng\r\n');
  const drip = setInterval(() => first.write('x'), 50);
  expect((await two.reply()).code).toBe(450);
  clearInterval(drip);
  second.destroy();
  first.end(raw);
  expect((await one.reply()).code).toBe(226);
  // And afterwards the second is another original beside it.
  expect(await two.store('STOR a.dng', jpeg)).toEqual([150, 226]);
  const kept = (await hall.records()).filter((record) => record.type === 'kept');
  expect(kept).toHaveLength(2);
});

test('K3.3 another connection lists what is arriving, as far as it has come, and works beside it', async () => {
  await using hall = await openHome();
  const [one, two] = [await Wire.loggedIn(hall.door.port), await Wire.loggedIn(hall.door.port)];
  const data = await one.data();
  expect((await one.command('STOR a.dng')).code).toBe(150);
  data.write(raw.subarray(0, 500_000));
  await expect.poll(async () => (await two.command('SIZE a.dng')).lines[0]).toBe('213 500000');
  expect((await two.listing('LIST')).text).toMatch(/ 500000 .* a\.dng\r\n$/);
  expect(await two.codes('MKD day', 'CWD day')).toEqual([257, 250]);
  expect(await two.store('STOR b.jpg', jpeg)).toEqual([150, 226]);
  // The camera renames it before its last byte has come: the frame follows.
  expect(await two.codes('RNFR /a.dng', 'RNTO /c.dng')).toEqual([350, 250]);
  data.end(raw.subarray(500_000));
  expect((await one.reply()).code).toBe(226);
  expect((await two.command('SIZE /c.dng')).lines[0]).toBe(`213 ${raw.length}`);
});

test('6.11 while a slow disk makes a long file durable, NOOP and STAT keep the control line alive', async () => {
  const disk = simulatedDisk();
  let release = (): void => {};
  const slow = new Promise<void>((resolve) => {
    release = resolve;
  });
  let isSlow = false;
  const slowDisk = withOwn(disk, {
    createFile: async (path) => {
      const file = await disk.createFile(path);
      const sync = (): Promise<void> => (isSlow ? slow : Promise.resolve()).then(() => file.sync());
      return path.includes('incoming') ? withOwn(file, { sync }) : file;
    },
  });
  const { keep } = await openSimulatedHome(disk, { disk: slowDisk });
  await using hall = await inFrontOf(keep, simulatedHome, { idleMs: 200 });
  const wire = await Wire.loggedIn(hall.door.port);
  const data = await wire.data();
  expect((await wire.command('STOR CLIP0001.MOV')).code).toBe(150);
  isSlow = true;
  data.end(raw);
  await eventually(() => data.closed, 'every byte has come');
  // A client with a keep-alive of its own says NOOP again and again, far beyond the door's own idle time.
  for (let said = 0; said < 20; said += 1) wire.send('NOOP\r\n');
  await new Promise((resolve) => setTimeout(resolve, 400));
  const status = await wire.command('STAT');
  expect(status.lines).toContain(' 900000 bytes received, now being made durable');
  // Nothing else was said: an early reply would be taken for the last (docs/decisions/0006).
  release();
  const codes: number[] = [];
  for (let reply = 0; reply < 21; reply += 1) codes.push((await wire.reply()).code);
  expect(codes).toEqual([226, ...Array<number>(20).fill(200)]);
});

/** The same object with some of its operations put in place of its own. */
function withOwn<Thing extends object>(thing: Thing, own: Partial<Thing>): Thing {
  return new Proxy(thing, {
    get: (target, name) => {
      const value: unknown = Reflect.get(own, name) ?? Reflect.get(target, name, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}
