import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { station as stationSchema } from '../../src/contract/index.ts';
import { expectSuccess } from '../interop/ftp-programs.ts';
import { hasProgram, runProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** A camera as a person sets it up: the root is loaded from the page, the fingerprint compared, the chain verified. */
describe.skipIf(!hasProgram('curl') || !hasProgram('openssl'))('a camera that sends by FTPS', () => {
  let home: string;
  let folder: string;
  let root: string;
  let file: string;
  let running: RunningStation;
  const bytes = Buffer.from(Array.from({ length: 70_000 }, (_, at) => (at * 31) & 0xff));

  const stationNow = async (): Promise<ReturnType<typeof stationSchema.parse>> =>
    stationSchema.parse(await (await fetch(`${running.ready.web}/api/v1/station`)).json());
  const upload = (url: string, more: readonly string[] = []): Promise<string> =>
    expectSuccess(
      runProgram('curl', [
        ...['-sS', '--ssl-reqd', '--cacert', root, ...more],
        ...['--user', `${running.user}:${running.password}`, '-T', file, url],
      ]),
    );
  const keptBytes = (name: string): Promise<Buffer> =>
    readFile(join(home, 'jobs/unsorted/originals/cam1', name));

  beforeAll(async () => {
    home = await newHome();
    folder = await mkdtemp(join(tmpdir(), 'setside-ftps-flow-'));
    root = join(folder, 'root.pem');
    file = join(folder, 'file.bin');
    await writeFile(file, bytes);
    running = await startStation(home);
    const answer = await fetch(`${running.ready.web}/api/v1/station/certificate.pem`);
    await writeFile(root, await answer.text());
  });
  afterAll(async () => {
    await running.stop();
    await removeHome(home);
    await rm(folder, { recursive: true, force: true });
  });

  test('the fingerprint on the page is that of the certificate, as OpenSSL reads both of its forms', async () => {
    const der = await (await fetch(`${running.ready.web}/api/v1/station/certificate.crt`)).arrayBuffer();
    await writeFile(join(folder, 'root.crt'), Buffer.from(der));
    const { certificate } = await stationNow();
    for (const [form, path] of [
      ['PEM', root],
      ['DER', join(folder, 'root.crt')],
    ] as const) {
      const args = ['x509', '-noout', '-fingerprint', '-sha256', '-inform', form, '-in', path];
      const printed = await expectSuccess(runProgram('openssl', args));
      expect(printed.trim().split('=')[1]).toBe(certificate?.fingerprint);
    }
  });

  test('curl verifies the chain and its file is kept, by both ways in', async () => {
    await upload(`ftps://127.0.0.1:${running.ready.ftps}/implicit.bin`);
    await upload(`ftp://127.0.0.1:${running.ready.ftp}/explicit.bin`);
    const hash = (data: Buffer): string => createHash('sha256').update(data).digest('hex');
    expect([hash(await keptBytes('implicit.bin')), hash(await keptBytes('explicit.bin'))]).toEqual([
      hash(bytes),
      hash(bytes),
    ]);
  });

  test('the stand-in sends to a station whose root it was given, and sends nothing to a station it does not know', async () => {
    const { ftp, ftps } = running.ready;
    const shoot = (how: 'explicit' | 'implicit', ...more: readonly string[]): ReturnType<typeof runProgram> =>
      runProgram(process.execPath, [
        ...[binary, 'stand-in', '--port', String(how === 'explicit' ? ftp : ftps), '--secure', how],
        ...['--user', running.user, '--password', running.password, '--cache', join(folder, 'cache')],
        ...['--frames', '1', '--size', '0.05', '--pace', '0', ...more],
      ]);
    const { code, stdout, stderr } = await shoot('implicit', '--ca', root);
    expect([code, stdout], stderr).toEqual([0, '1 of 1 frames sent and acknowledged.\n']);
    const unknown = await shoot('explicit');
    expect([unknown.code, unknown.stderr]).toEqual([3, expect.stringContaining('self-signed certificate')]);
  });

  test('keys are for this user only', async () => {
    const modes = ['keys', 'keys/authority.pem', 'keys/server.pem'].map(async (name) =>
      ((await stat(join(home, name))).mode & 0o777).toString(8),
    );
    expect(await Promise.all(modes)).toEqual(['700', '600', '600']);
  });

  test('the root outlives a restart; where only encrypted is taken, plain FTP is refused before the password', async () => {
    const before = (await stationNow()).certificate;
    await running.stop();
    running = await startStation(home, ['--encrypted-only']);
    expect((await stationNow()).certificate).toEqual(before);
    expect((await stationNow()).encryptedOnly).toBe(true);
    const plain = await runProgram('curl', [
      ...['-sS', '-v', '--user', `${running.user}:${running.password}`, '-T', file],
      `${running.ftpUrl}/plain.bin`,
    ]);
    expect(plain.code).not.toBe(0);
    expect(plain.stderr).toContain('< 530 ');
    expect(plain.stderr).not.toContain('> PASS');
    await upload(`ftp://127.0.0.1:${running.ready.ftp}/encrypted.bin`);
    expect((await keptBytes('encrypted.bin')).length).toBe(bytes.length);
  });

  test('a root that cannot be read is left as it is, and a station that was told to speak FTPS says so and ends', async () => {
    await running.stop();
    const file = join(home, 'keys/authority.pem');
    const key = await readFile(file, 'utf8');
    await writeFile(file, 'no key');
    const ports = ['--web', '0', '--ftp', '0', '--ftps', '0', '--sftp', '0'];
    const ended = await runProgram(process.execPath, [binary, 'station', '--home', home, ...ports]);
    expect([ended.code, ended.stderr]).toEqual([3, expect.stringContaining('expected a root certificate')]);
    expect(await readFile(file, 'utf8')).toBe('no key');
    await writeFile(file, key);
    running = await startStation(home);
  });
});
