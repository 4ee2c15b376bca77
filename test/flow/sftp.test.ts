import { createHash } from 'node:crypto';
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { station as stationSchema } from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { expectSuccess } from '../interop/ftp-programs.ts';
import { OpenSsh } from '../interop/sftp-hall.ts';
import { hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The whole station with OpenSSH's own client before it. */
describe.skipIf(!hasProgram('sftp'))('a camera that sends by SFTP', () => {
  let home: string;
  let station: RunningStation;
  let ssh: OpenSsh;
  let raw: Uint8Array;
  let rawFile: string;

  beforeAll(async () => {
    home = await newHome();
    await begin();
    raw = (await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 7 })).bytes;
    rawFile = ssh.file('whole.dng', raw);
  });

  afterAll(async () => {
    await station.stop();
    ssh.remove();
    await removeHome(home);
  });

  async function begin(): Promise<void> {
    station = await startStation(home);
    ssh = new OpenSsh(station.ready.sftp ?? 0, station.user, station.password);
  }

  async function filesOf(name: string): Promise<unknown> {
    return (await station.frames()).find((frame) => frame.name === name)?.files;
  }

  /** The same raw with another name and other bytes, so that no test meets the file of another. */
  function another(name: string): { readonly bytes: Uint8Array; readonly file: string } {
    const bytes = Uint8Array.from(raw);
    bytes.set(new TextEncoder().encode(name), bytes.length - 64);
    return { bytes, file: ssh.file(name, bytes) };
  }

  test('is answered when its frame is kept, under the hash of what was sent', async () => {
    const { file, bytes } = another('QMST0001.DNG');
    await expectSuccess(ssh.sftp(`mkdir DCIM\nput ${file} DCIM/QMST0001.DNG`));
    expect(await filesOf('QMST0001.DNG')).toMatchObject([
      { name: 'QMST0001.DNG', size: bytes.length, sha256: sha256(bytes), state: 'whole' },
    ]);
  });

  test('is told that a cut file is cut, and goes on in it (decision 0008, keeping 2)', async () => {
    const { file, bytes } = another('QMST0002.DNG');
    const cut = ssh.file('cut.dng', bytes.subarray(0, bytes.length - 100_000));
    const refused = await ssh.sftp(`put ${cut} QMST0002.DNG`);
    expect(refused.code).not.toBe(0);
    expect(refused.stderr).toMatch(/close remote/);
    await expectSuccess(ssh.sftp(`reput ${file} QMST0002.DNG`));
    expect(await filesOf('QMST0002.DNG')).toMatchObject([{ sha256: sha256(bytes), state: 'whole' }]);
  });

  test('that sends the same cut bytes twice has them kept as damaged (decision 0008, keeping 2)', async () => {
    const { bytes } = another('QMST0003.DNG');
    const cut = ssh.file('cut.dng', bytes.subarray(0, bytes.length - 100_000));
    expect((await ssh.sftp(`put ${cut} QMST0003.DNG`)).code).not.toBe(0);
    await expectSuccess(ssh.sftp(`put ${cut} QMST0003.DNG`));
    expect(await filesOf('QMST0003.DNG')).toMatchObject([{ state: 'damaged' }]);
  });

  test('comes in by a key that was added while the station runs', async () => {
    const key = ssh.file('key', '');
    await expectSuccess(runProgram('sh', ['-c', `rm ${key}; ssh-keygen -q -t ed25519 -N '' -f ${key}`]));
    const options = ['-i', key, '-o', 'PreferredAuthentications=publickey'];
    const put = `put ${rawFile} QMST0004.DNG`;
    expect((await ssh.sftp(put, options)).code).not.toBe(0);
    const line = (await readFile(`${key}.pub`, 'utf8')).trim();
    const binary = join(import.meta.dirname, '../../bin/setside.mjs');
    await expectSuccess(
      runProgram(process.execPath, [binary, 'camera', 'change', 'cam1', '--key', line, '--home', home]),
    );
    await eventually('the key is known', async () => (await ssh.sftp(put, options)).code === 0);
    expect(await filesOf('QMST0004.DNG')).toMatchObject([{ state: 'whole' }]);
  });

  test('finds the same host keys after a restart, for this user only and as ssh-keygen prints them', async () => {
    const keys = (await readdir(join(home, 'keys'))).filter((name) => name.startsWith('ssh-host-'));
    expect(keys).toEqual(['ssh-host-ecdsa', 'ssh-host-ed25519']);
    const printed = await Promise.all(
      keys.map(async (name) => {
        const file = join(home, 'keys', name);
        expect((await stat(file)).mode & 0o777).toBe(0o600);
        return (await expectSuccess(runProgram('ssh-keygen', ['-lf', file]))).split(' ')[1];
      }),
    );
    expect((await shownKeys()).sort()).toEqual([...printed].sort());
    await expectSuccess(ssh.sftp('ls'));
    await station.stop();
    const before = await shownKeysOf(home);
    await begin();
    expect(await shownKeys()).toEqual(before);
  });

  async function shownKeys(): Promise<string[]> {
    const answer = await fetch(`${station.ready.web}/api/v1/station`);
    const { doors } = stationSchema.parse(await answer.json());
    return (doors.find(({ name }) => name === 'sftp')?.hostKeys ?? []).map(({ fingerprint }) => fingerprint);
  }
});

/** ed25519 first, as the station shows them. */
async function shownKeysOf(home: string): Promise<string[]> {
  const prints = ['ed25519', 'ecdsa'].map(async (kind) => {
    const printed = await expectSuccess(
      runProgram('ssh-keygen', ['-lf', join(home, 'keys', `ssh-host-${kind}`)]),
    );
    return printed.split(' ')[1] ?? '';
  });
  return Promise.all(prints);
}
