import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Hall, openHall } from './ftp-hall.ts';
import { type Manner, type MatrixClient, manners, matrixClients } from './ftp-matrix-clients.ts';
import { Wire } from './ftp-wire.ts';

/**
 * Every client that others wrote, in every manner, over passive and active data connections, IPv4 and IPv6. What a
 * client cannot do is listed with the reason; everything else must leave in the folder what the client was given.
 * curl 7.88.1, lftp 4.9.2, NcFTP 3.2.6, tnftp 20210827, Python 3 ftplib and basic-ftp 6.2.6 were seen to pass.
 */
const whole = new Uint8Array(400_000).map((_, index) => (Math.imul(index, 2_654_435_761) >>> 13) & 0xff);
const other = whole.slice(0, 200_000).reverse();
const halfBytes = 150_001;

let place: string;
/** Somebody sits on the only passive port of doors for active mode, so that nobody can fall back on it unseen. */
let sitter: Server;
let takenPort = 0;

beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), 'setside-ftp-matrix-'));
  mkdirSync(join(place, 'half'));
  writeFileSync(join(place, 'a.dng'), whole);
  writeFileSync(join(place, 'b.dng'), other);
  writeFileSync(join(place, 'half/a.dng'), whole.subarray(0, halfBytes));
  sitter = createServer().listen({ port: 0, host: '::' });
  await once(sitter, 'listening');
  const address = sitter.address();
  if (typeof address === 'object' && address !== null) takenPort = address.port;
});
afterAll(() => {
  sitter.close();
  rmSync(place, { recursive: true, force: true });
});

async function openFor(active: boolean): Promise<Hall> {
  const hall = await openHall({
    host: '::',
    ...(active ? { passive: { from: takenPort, to: takenPort } } : {}),
  });
  return hall;
}

/** What the folder must show once a client has done its work. */
function expectDone(manner: Manner, hall: Hall, printed: string): void {
  const { folder } = hall;
  if (manner === 'list') {
    expect(printed).toContain('SET_0001.DNG');
    expect(printed).toContain('SET_0002.DNG');
    return;
  }
  expect(Buffer.from(folder.read('/a.dng') ?? '').equals(whole), 'the folder holds what was sent').toBe(true);
  if (manner === 'rename') expect(folder.read('/a.tmp')).toBeNull();
  if (manner === 're-upload')
    expect(folder.originals.map(({ bytes }) => bytes.length)).toEqual([200_000, 400_000]);
  if (manner === 'resume') expect(hall.codes()).toContain('line.upload-resumed');
}

async function cell(client: MatrixClient, manner: Manner, active: boolean, host: '127.0.0.1' | '::1') {
  const hall = await openFor(active);
  try {
    if (manner === 'list') {
      await hall.folder.makeFolder('/SET_0001.DNG');
      await hall.folder.makeFolder('/SET_0002.DNG');
    }
    const printed = await client.run(manner, { port: hall.door.port, host, active, place, halfBytes });
    expectDone(manner, hall, printed);
  } finally {
    await hall.door.close();
  }
}

for (const client of matrixClients) {
  describe.skipIf(!client.isHere)(client.name, () => {
    for (const active of [false, true]) {
      for (const host of ['127.0.0.1', '::1'] as const) {
        const way = `${active ? 'active' : 'passive'}, ${host === '::1' ? 'IPv6' : 'IPv4'}`;
        const can = manners.filter((manner) => client.cannot(manner, { active, host }) === null);
        for (const manner of can) test(`${manner}, ${way}`, () => cell(client, manner, active, host));
      }
    }
  });
}

test('what clients cannot do is this and no more, each for its reason', () => {
  const reasons = matrixClients.flatMap((client) =>
    [false, true].flatMap((active) =>
      (['127.0.0.1', '::1'] as const).flatMap((host) =>
        manners.flatMap((manner) => {
          const why = client.cannot(manner, { active, host });
          return why === null ? [] : [`${client.name}: ${why}`];
        }),
      ),
    ),
  );
  const counted = new Map<string, number>();
  for (const reason of reasons) counted.set(reason, (counted.get(reason) ?? 0) + 1);
  expect(Object.fromEntries(counted)).toEqual({
    'NcFTP: it knows IPv4 only': 10,
    'basic-ftp: it has no active mode': 10,
  });
});

test('a door whose passive ports are taken opens none, so that active cells are active', async () => {
  const hall = await openFor(true);
  const wire = await Wire.loggedIn(hall.door.port);
  expect((await wire.command('EPSV')).code).toBe(425);
  await hall.door.close();
});
