import { mkdirSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type Delivery,
  delivery,
  deliveryList,
  destination,
  destinationTest,
} from '../../src/contract/index.ts';
import { hasSshdOfRoot, OwnSshd } from '../interop/own-sshd.ts';
import { S3Stub } from '../interop/s3-stub.ts';
import { curlUpload, hasProgram, type Ran, runProgram } from './clients.ts';
import { HeldRelay } from './held-relay.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** The real station sends to OpenSSH's server, over a relay that can hold a line, and to a stub of S3. */
describe.skipIf(!hasSshdOfRoot || !hasProgram('curl'))('deliveries that are sent', () => {
  let home: string;
  let station: RunningStation;
  let sshd: OwnSshd;
  let port: number;
  let stub: S3Stub;
  let relay: HeldRelay;
  let said = '';
  /** Undoes each step of the beginning that was done, the last first: one that failed must leave no server behind. */
  const undo: (() => Promise<void>)[] = [];

  beforeAll(async () => {
    home = await newHome();
    undo.push(() => removeHome(home));
    sshd = await OwnSshd.make();
    undo.push(() => sshd.remove());
    await sshd.start();
    relay = new HeldRelay(sshd.port);
    undo.push(() => relay.stop());
    port = await relay.start();
    stub = new S3Stub();
    undo.push(() => stub.stop());
    station = await startStation(home);
    // The one that runs by then: tests start another.
    undo.push(() => station.stop());
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    await send('PATCH', '/jobs/QM-26', { naming: '{job}_{counter}' });
    for (const counter of [1, 2, 3]) {
      const background = { r: 90 + counter * 20, g: 120, b: 60 };
      const file = join(home, `QMST000${counter}.JPG`);
      writeFileSync(
        file,
        await sharp({ create: { width: 96, height: 64, channels: 3, background } })
          .jpeg()
          .toBuffer(),
      );
      expect((await curlUpload(station, file, `/QMST000${counter}.JPG`)).code).toBe(0);
    }
    await eventually('three pictures', async () => {
      const frames = await station.frames();
      return frames.length === 3 && frames.every(({ picture }) => picture.state === 'rendered');
    });
    for (const { id } of await station.frames()) await send('PATCH', `/frames/${id}`, { mark: 'hero' });
  });

  afterAll(async () => {
    const failures: unknown[] = [];
    for (const step of undo.reverse()) await step().catch((thrown: unknown) => failures.push(thrown));
    expect(failures).toEqual([]);
  });

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function setside(args: readonly string[], input?: string): Promise<Ran> {
    const ran = await runProgram(process.execPath, [binary, ...args, '--home', home], {
      ...(input === undefined ? {} : { input }),
    });
    said += ran.stdout + ran.stderr;
    return ran;
  }

  /** Files of some megabytes that do not shrink. */
  function specification(title: string, name = 'printer'): unknown {
    return {
      version: 1,
      title,
      size: { kind: 'exact', widthPx: 1400, heightPx: 1400 },
      enlarge: true,
      format: { kind: 'tiff', depth: 16, compression: 'none' },
      destination: { kind: 'named', name },
    };
  }
  async function begin(title: string, name?: string): Promise<Delivery> {
    const answer = await send('POST', '/deliveries', {
      job: 'QM-26',
      specification: specification(title, name),
    });
    const text = await answer.text();
    said += text;
    return delivery.parse(JSON.parse(text));
  }
  const when = (id: string, isSo: (told: Delivery) => boolean): Promise<Delivery> =>
    eventually(
      'the delivery',
      async () => {
        const text = await (await send('GET', `/deliveries/${id}`)).text();
        said += text;
        const told = delivery.parse(JSON.parse(text));
        return isSo(told) && told;
      },
      120_000,
    );
  const at = (...names: string[]): string => join(sshd.files, 'QM-26', ...names);

  test('a server that nobody compared yet is shown and sent nothing; trusted, it takes a small file', async () => {
    const add = ['destination', 'add', 'printer', '--sftp', 'deliver@127.0.0.1', '--port', String(port)];
    const added = await setside([...add, '--json'], `${sshd.password}\n`);
    expect(added.code, added.stderr).toBe(0);
    expect(destination.parse(JSON.parse(added.stdout))).toMatchObject({ secret: 'kept' });
    const unknown = await setside(['destination', 'test', 'printer']);
    expect(unknown.code).toBe(1);
    expect(unknown.stdout).toContain(`--trust ${sshd.fingerprint}`);
    expect(sshd.log()).not.toMatch(/Accepted|Failed/);
    const trusted = await setside(['destination', 'test', 'printer', '--trust', sshd.fingerprint]);
    expect(trusted.code, trusted.stdout).toBe(0);
    const tested = await (await send('POST', '/destinations/printer/test')).json();
    expect(destinationTest.parse(tested)).toEqual({ ok: true, hostKey: sshd.fingerprint, findings: [] });
    expect(readdirSync(sshd.files)).toEqual([]);
  });

  test('files lie there byte for byte, and the manifest that lies with them says where', async () => {
    const ran = await setside(['deliver', 'QM-26', '--spec', 'social', '--to', 'printer', '--json']);
    expect(ran.code, ran.stderr).toBe(0);
    const done = delivery.parse(JSON.parse(ran.stdout));
    expect(done).toMatchObject({ destination: 'printer', filesSent: 3, notSent: [] });
    expect(done.bytesSent).toBe(done.bytesToSend);
    const there = at(done.folder.split('/').at(-1) ?? '');
    expect(readdirSync(there).sort()).toEqual(readdirSync(done.folder).sort());
    for (const name of readdirSync(there)) {
      expect(readFileSync(join(there, name)).equals(readFileSync(join(done.folder, name)))).toBe(true);
    }
    const manifest: unknown = JSON.parse(readFileSync(join(there, 'manifest.json'), 'utf8'));
    const sentTo = `sftp://deliver@127.0.0.1:${port}/~/QM-26/Social pages/QM-26_0001.jpg`;
    expect(manifest).toMatchObject({ files: [{ sentTo }, {}, {}] });
  });

  test('after kill -9 in the middle of a file the rest is sent, and what was there is not sent again', async () => {
    const bytes = 1400 * 1400 * 3 * 2;
    relay.passed = 0;
    relay.holdAt = 1.6 * bytes;
    const { id, folder } = await begin('Killed');
    await when(id, ({ filesSent, bytesSent }) => filesSent === 1 && bytesSent > 1.3 * bytes);
    const first = statSync(at('Killed', 'QM-26_0001.tif'));
    await station.kill();
    said += station.stderr();
    relay.release();
    station = await startStation(home);
    const done = await when(id, ({ state }) => state === 'done');
    expect(done).toMatchObject({ filesSent: 3, notSent: [] });
    for (const name of readdirSync(folder))
      expect(readFileSync(at('Killed', name)).equals(readFileSync(join(folder, name)))).toBe(true);
    expect(readdirSync(at('Killed')).sort()).toEqual(readdirSync(folder).sort());
    expect(statSync(at('Killed', 'QM-26_0001.tif'))).toMatchObject({
      ino: first.ino,
      mtimeMs: first.mtimeMs,
    });
    // Three files, and of the second once more what may have lain under way; the whole of one would be over this.
    expect(relay.passed).toBeLessThan(3.6 * bytes);
  });

  test('a server that is away: why it tries again is said, and it goes on by itself', async () => {
    relay.passed = 0;
    await sshd.kill();
    const { id } = await begin('Away');
    const trying = await when(id, ({ finding }) => finding !== null);
    expect(trying.state).toBe('running');
    expect(trying.finding?.code).toMatch(/^send\.(no-answer|line-cut)$/);
    await sshd.start();
    const done = await when(id, ({ state }) => state === 'done');
    expect(done).toMatchObject({ filesSent: 3, finding: null });
  });

  test('a disk that is not plugged in: it waits for a person, and goes on when they say so', async () => {
    const disk = join(sshd.files, 'disk');
    await send('PUT', '/destinations/disk', { place: { kind: 'folder', path: disk } });
    const { id } = await begin('Disk', 'disk');
    const waiting = await when(id, ({ state }) => state === 'paused');
    expect(waiting.finding).toEqual({ code: 'send.no-folder', args: { folder: disk } });
    mkdirSync(disk);
    await send('PATCH', `/deliveries/${id}`, { state: 'running' });
    await when(id, ({ state }) => state === 'done');
    expect(readdirSync(join(disk, 'QM-26/Disk'))).toHaveLength(5);
  });

  test('a file of that name with other bytes stays; it is said, and the others are sent', async () => {
    mkdirSync(at('Taken'));
    writeFileSync(at('Taken', 'QM-26_0002.tif'), 'theirs');
    await runProgram('chown', ['-R', '991', at('Taken')]);
    const { id } = await begin('Taken');
    const done = await when(id, ({ state }) => state === 'done');
    const finding = { code: 'send.name-taken', args: { name: 'QM-26_0002.tif' } };
    expect(done).toMatchObject({ filesSent: 2, notSent: [{ file: 'QM-26_0002.tif', finding }] });
    expect(readFileSync(at('Taken', 'QM-26_0002.tif'), 'utf8')).toBe('theirs');
    expect(readFileSync(at('Taken', 'manifest.csv'), 'utf8')).toContain('It was left alone');
  });

  test('once theirs is moved away, what was not sent goes when it is let go on; what was there stays', async () => {
    const { deliveries } = deliveryList.parse(await (await send('GET', '/deliveries')).json());
    const id = deliveries.find(({ title }) => title === 'Taken')?.id ?? '';
    const before = statSync(at('Taken', 'QM-26_0001.tif')).mtimeMs;
    renameSync(at('Taken', 'QM-26_0002.tif'), at('Taken', 'theirs.tif'));
    expect((await send('PATCH', `/deliveries/${id}`, { state: 'running' })).status).toBe(200);
    const done = await when(id, ({ state }) => state === 'done');
    expect(done).toMatchObject({ filesSent: 3, notSent: [] });
    const sizes = ['QM-26_0001.tif', 'QM-26_0002.tif'].map((name) => statSync(at('Taken', name)).size);
    expect(sizes[1]).toBe(sizes[0]);
    expect(statSync(at('Taken', 'QM-26_0001.tif')).mtimeMs).toBe(before);
    // The list that lay there is not overwritten; the new one names all three.
    expect(readFileSync(at('Taken', 'manifest.csv'), 'utf8')).toContain('It was left alone');
    expect(readFileSync(at('Taken', 'manifest-2.csv'), 'utf8')).not.toContain('It was left alone');
    expect(readdirSync(at('Taken'))).toContain('manifest-2.json');
    // Nothing is left to send.
    expect((await send('PATCH', `/deliveries/${id}`, { state: 'running' })).status).toBe(409);
  });

  test('one that is ended leaves nothing half there', async () => {
    const bytes = 1400 * 1400 * 3 * 2;
    relay.passed = 0;
    relay.holdAt = 0.6 * bytes;
    const { id } = await begin('Ended');
    await when(id, ({ bytesSent }) => bytesSent > 0.3 * bytes);
    expect(readdirSync(at('Ended'))).toHaveLength(1);
    relay.release();
    await send('PATCH', `/deliveries/${id}`, { state: 'aborted' });
    await eventually('nothing half there', async () => readdirSync(at('Ended')).length === 0);
  });

  test('a destination that was made by a call: its secret is for the same log-in only', async () => {
    const endpoint = await stub.start();
    const { bucket, accessKeyId, secret } = stub;
    const place = { kind: 's3', bucket, region: 'eu-north-1', endpoint, pathStyle: true, accessKeyId };
    const made = await send('PUT', '/destinations/vault', { place, secret });
    expect(made.status).toBe(201);
    said += await made.text();
    const { id } = await begin('Vault', 'vault');
    await when(id, ({ state }) => state === 'done');
    expect([...stub.objects.keys()].sort()).toEqual(
      ['QM-26_0001.tif', 'QM-26_0002.tif', 'QM-26_0003.tif', 'manifest.csv', 'manifest.json'].map(
        (name) => `QM-26/Vault/${name}`,
      ),
    );
    said += await (await send('GET', '/destinations')).text();
    const elsewhere = { place: { ...place, endpoint: 'https://elsewhere.example' } };
    const moved: unknown = await (await send('PUT', '/destinations/vault', elsewhere)).json();
    expect(moved).toMatchObject({ secret: null });
    const command = { place, secret: { from: 'command', words: ['true'] } };
    expect((await send('PUT', '/destinations/vault', command)).status).toBe(400);
    expect((await send('DELETE', '/destinations/vault')).status).toBe(204);
    expect((await send('DELETE', '/destinations/vault')).status).toBe(404);
  });

  test('no secret is in an answer, on a terminal, in the log, or in a file outside keys/', async () => {
    said += station.stderr();
    const files = readdirSync(home, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.parentPath.endsWith('/keys'))
      .map((entry) => readFileSync(join(entry.parentPath, entry.name)));
    for (const secret of [sshd.password, stub.secret]) {
      expect(said).not.toContain(secret);
      expect(files.filter((bytes) => bytes.includes(secret))).toHaveLength(0);
    }
    expect(readFileSync(join(home, 'keys/destination-printer.json'), 'utf8')).toContain(sshd.password);
  });
});
