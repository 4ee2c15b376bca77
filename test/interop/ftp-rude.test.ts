import { connect, type Socket } from 'node:net';
import { afterEach, expect, test } from 'vitest';
import type { FolderEntry } from '../../src/receive/index.ts';
import { type Hall, openHall } from './ftp-hall.ts';
import { type HomeHall, openHome } from './ftp-home.ts';
import { eventually, gone, openData, Wire } from './ftp-wire.ts';

/** Clients who mean harm, or are badly made. Numbers are rules of src/receive/SPEC.md and src/keep/SPEC.md. */
const halls: Hall[] = [];
const open = async (options: Parameters<typeof openHall>[0] = {}): Promise<Hall> => {
  const hall = await openHall(options);
  halls.push(hall);
  return hall;
};
afterEach(async () => {
  await Promise.all(halls.splice(0).map(({ door }) => door.close()));
});

const strangers = (index: number): string => `127.0.1.${1 + (index % 50)}`;
const text = (value: string): Uint8Array => new TextEncoder().encode(value);

/** Sends a line that is refused once the data connection is there, or before. */
async function refusedStore(wire: Wire, ...lines: readonly string[]): Promise<number | undefined> {
  const data = await wire.data();
  const codes = await wire.codes(...lines);
  await gone(data);
  return codes.at(-1);
}

test('8.3 whatever is refused leaves no record in the journal', async () => {
  await using hall = await openHome({ limits: { foldersPerCameraMax: 2, arrivalsPerCameraMax: 1 } });
  const wire = await Wire.loggedIn(hall.door.port);
  expect(await wire.store('STOR a', text('kept'))).toEqual([150, 226]);
  expect(await wire.codes('MKD d')).toEqual([257]);
  const before = await hall.records();
  const other = await Wire.loggedIn(hall.door.port);
  expect(await refusedStore(other, 'REST 5', 'STOR a')).toBe(554);
  expect(await refusedStore(other, 'REST 5', 'APPE a')).toBe(554);
  expect(await refusedStore(other, 'REST 5', 'STOU a')).toBe(503);
  expect(await hall.records()).toEqual(before);

  const data = await wire.data();
  await wire.command('STOR arriving');
  const records = await hall.records();
  const refused: Readonly<Record<string, number>> = {
    'MKD d': 550,
    'MKD more': 550,
    'MKD nowhere/d': 550,
    [`MKD ${'n'.repeat(256)}`]: 553,
    [`MKD ${'/d'.repeat(17)}`]: 553,
    'RMD missing': 550,
    'RMD /': 550,
    'RMD a': 550,
    'DELE missing': 550,
    'DELE d': 550,
    'RNFR missing': 550,
    'RNTO b': 503,
    'MFMT 20261001080405 missing': 550,
    'MFMT 20269901080405 a': 501,
    'MDTM 20261001080405 missing': 550,
    'SITE UTIME 20261001080405 missing': 550,
    'SITE CHMOD 777 a': 202,
    'STOR unreachable': 425,
    'RETR a': 550,
  };
  for (const [line, code] of Object.entries(refused)) {
    expect((await other.command(line)).code, line).toBe(code);
  }
  expect(await other.codes('RNFR a', 'RNTO d')).toEqual([350, 553]);
  expect(await other.codes('RNFR a', 'RNTO a')).toEqual([350, 250]);
  expect(await refusedStore(other, 'STOR d')).toBe(550);
  expect(await refusedStore(other, 'STOR nowhere/a')).toBe(550);
  expect(await refusedStore(other, 'STOR too-many')).toBe(450);
  const stranger = await Wire.open(hall.door.port);
  await stranger.reply();
  expect(await stranger.codes('STOR x', 'MKD x', 'USER a', 'PASS wrong')).toEqual([530, 530, 331, 530]);
  expect(await hall.records()).toEqual(records);
  data.destroy();
});

test('8.4 a storm of renames, folders and times waits its turn, and files that are kept do not', async () => {
  await using hall = await openHome({}, { changesPerSecondMax: 50, changesAtOnceMax: 4 });
  const wire = await Wire.loggedIn(hall.door.port);
  await wire.store('STOR a', text('a'));
  const began = performance.now();
  for (let change = 0; change < 20; change += 1) {
    await wire.codes(`MFMT 202610010804${String(change + 10)} a`);
  }
  // 4 at once and 3 earned by the file leave 13 to wait 20 ms each: no sooner, however fast the computer.
  expect(performance.now() - began).toBeGreaterThan(250);
  const other = await Wire.loggedIn(hall.door.port);
  for (let file = 0; file < 20; file += 1) {
    expect(await other.store(`STOR f${file}`, text('x'))).toEqual([150, 226]);
  }
});

test('4.7 a thousand connections of fifty strangers keep no known camera out, and it uploads meanwhile', async () => {
  const { door, folder, codes } = await open({ limits: { lingerMs: 2000 } });
  const camera = { from: '127.0.2.1' };
  await (await Wire.loggedIn(door.port, camera)).command('QUIT');
  const connected = (): number => codes().filter((code) => code === 'line.connected').length;
  const flood: Socket[] = [];
  try {
    for (let index = 0; index < 1000; index += 1) {
      const socket = connect({ port: door.port, host: '127.0.0.1', localAddress: strangers(index) });
      socket.on('error', () => {});
      flood.push(socket);
    }
    // 120 in all without the 40 reserved; the camera's first connection may still have held one of them.
    await eventually(() => connected() >= 80, 'all the places that strangers may have are taken');
    const wire = await Wire.loggedIn(door.port, camera);
    const data = await openData(await wire.passive(), '127.0.0.1', camera.from);
    expect((await wire.command('STOR a.dng')).code).toBe(150);
    data.end('a frame');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a.dng')).toEqual(text('a frame'));
    expect(connected()).toBeLessThanOrEqual(82);
    // The log hears of the flood, and is not flooded.
    expect(codes().filter((code) => code === 'line.too-many-connections')).toHaveLength(1);
  } finally {
    for (const socket of flood) socket.destroy();
  }
});

test('5.2 who knocks at a data port for ever is turned away each time and told of once', async () => {
  const { door, codes } = await open();
  const wire = await Wire.loggedIn(door.port);
  const port = await wire.passive();
  for (let knock = 0; knock < 20; knock += 1) {
    await gone(await openData(port, '127.0.0.1', strangers(knock)));
  }
  const data = await openData(port);
  expect((await wire.command('STOR a')).code).toBe(150);
  data.end('mine');
  expect((await wire.reply()).code).toBe(226);
  expect(codes().filter((code) => code === 'line.foreign-data-connection')).toHaveLength(1);
});

test('2.1 a client that never reads its replies is not read either, and is closed like any silent one', async () => {
  const { door, codes } = await open({ limits: { idleMs: 300 } });
  const wire = await Wire.loggedIn(door.port);
  wire.socket.pause();
  const lines = Buffer.from('HELP\r\n'.repeat(20_000));
  for (let sent = 0; sent < 20; sent += 1) wire.socket.write(lines);
  await eventually(() => codes().includes('line.disconnected'), 'it is closed');
  wire.close();
});

test('1.5 Telnet commands without end close the connection, in a line and in a subnegotiation', async () => {
  const { door } = await open();
  for (const flood of [
    [255, 241],
    [255, 250, 1, 1],
    [255, 251, 1],
  ]) {
    const wire = await Wire.loggedIn(door.port);
    const repeats = Math.ceil((256 * 1024 + 1) / (flood.length === 4 ? 1 : flood.length));
    const bytes =
      flood.length === 4 ? [...flood, ...Array<number>(repeats).fill(1)] : Array(repeats).fill(flood).flat();
    wire.send(Uint8Array.from(bytes));
    expect((await wire.reply()).code).toBe(421);
    await wire.ended();
  }
});

test('3.2 the deepest path of the longest names is taken, kept under a path that the system takes, and listed', async () => {
  await using hall = await openHome();
  const wire = await Wire.loggedIn(hall.door.port);
  const name = 'ü'.repeat(127);
  let path = '';
  for (let depth = 1; depth < 15; depth += 1) {
    path += `/${name}`;
    expect((await wire.command(`MKD ${path}`)).code).toBe(257);
    // The line is 4096 bytes: the names go up to there, the depth further by CWD.
    expect((await wire.command(`CWD ${path}`)).code).toBe(250);
  }
  expect(await wire.codes(`MKD ${name}`, `CWD ${name}`)).toEqual([257, 250]);
  expect(await wire.store(`STOR ${name}`, text('deep'))).toEqual([150, 226]);
  expect(await wire.codes(`MKD ${name}x`, `CWD ${name}x`, 'MKD y')).toEqual([257, 250, 553]);
  const kept = (await hall.records()).find(({ type }) => type === 'kept');
  expect(kept).toMatchObject({ name });
});

/** A folder as long as this: twice what the largest counters of a card fill. */
const many: readonly FolderEntry[] = Array.from({ length: 20_000 }, (_, number) => ({
  name: `SET_${String(number).padStart(5, '0')}.DNG`,
  kind: 'file',
  sizeBytes: 25_000_000 + number,
  modifiedMs: 1_790_000_000_000 + number,
}));

test('8.5 a folder of 20,000 files is listed in every form, and others are served between its pieces', async () => {
  const { door, folder } = await open();
  folder.list = async () => many;
  const wire = await Wire.loggedIn(door.port);
  for (const line of ['LIST', 'NLST', 'MLSD']) {
    const { codes, text: listed } = await wire.listing(line);
    expect([line, codes, listed.split('\r\n').length - 1]).toEqual([line, [150, 226], 20_000]);
    expect(listed).toContain('SET_19999.DNG');
  }
  expect((await wire.command('STAT .')).code).toBe(450);
  // Whoever does not read a listing holds it up for nobody else.
  const slow = await Wire.loggedIn(door.port);
  const data = await slow.data();
  data.pause();
  slow.send('LIST\r\n');
  expect((await slow.reply()).code).toBe(150);
  const other = await Wire.loggedIn(door.port);
  expect(await other.store('STOR a', text('a'))).toEqual([150, 226]);
  data.destroy();
  expect((await slow.reply()).code).toBe(426);
});

test('K7.3 a storm of folders ends at its bound, and the camera still uploads', async () => {
  await using hall: HomeHall = await openHome({ limits: { foldersPerCameraMax: 50 } });
  const wire = await Wire.loggedIn(hall.door.port);
  wire.send(Array.from({ length: 30 }, (_, number) => `MKD a${number}\r\n`).join(''));
  for (let reply = 0; reply < 30; reply += 1) expect((await wire.reply()).code).toBe(257);
  wire.send(Array.from({ length: 30 }, (_, number) => `MKD b${number}\r\n`).join(''));
  const codes: number[] = [];
  for (let reply = 0; reply < 30; reply += 1) codes.push((await wire.reply()).code);
  // 50 with the root: 19 more pass.
  expect(codes.filter((code) => code === 257)).toHaveLength(19);
  expect(codes.filter((code) => code === 550)).toHaveLength(11);
  expect(await wire.store('STOR a0/x', text('x'))).toEqual([150, 226]);
});
