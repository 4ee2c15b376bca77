import { chmodSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { DestinationPlace } from '../../src/contract/index.ts';
import { defaultSendLimits, tryPlace } from '../../src/send/index.ts';
import { runProgram } from '../flow/clients.ts';
import { hasSshd, hasSshdOfRoot, OwnSshd } from './own-sshd.ts';
import { refusalOf, SendBench } from './send-bench.ts';

const MB = 1_000_000;
type SftpPlace = Extract<DestinationPlace, { kind: 'sftp' }>;

/** OpenSSH's own server is the judge: what it holds in the end, and what its log says of who came. */
describe.skipIf(!hasSshd)('files to an SFTP server', () => {
  let sshd: OwnSshd;
  let bench: SendBench;

  beforeEach(async () => {
    sshd = await OwnSshd.make();
    await sshd.start();
    bench = new SendBench();
  });

  afterEach(async () => {
    bench.remove();
    await sshd.remove();
  });

  function place(more: Partial<SftpPlace> = {}): SftpPlace {
    const { user, port, files: path, logInBy, fingerprint: hostKey } = sshd;
    return { kind: 'sftp', host: '127.0.0.1', port, user, path, logInBy, hostKey, ...more };
  }
  const there = (): string[] => readdirSync(sshd.files, { recursive: true, encoding: 'utf8' }).sort();
  const bytesOf = (name: string): Buffer => readFileSync(join(sshd.files, name));

  test('a file comes whole under its name and is read back, by password and by key', async () => {
    const file = bench.file('QM-26_0001.tif', 5 * MB + 3);
    const below = ['QM-26', 'Web shop'];
    const sent = await bench.send(place(), sshd.secret, file, { below });
    const where = `sftp://${sshd.user}@127.0.0.1:${sshd.port}${sshd.files}/QM-26/Web shop/QM-26_0001.tif`;
    expect(sent).toEqual({ where, proof: 'read-back' });
    expect(bytesOf('QM-26/Web shop/QM-26_0001.tif').equals(readFileSync(file.path))).toBe(true);
    expect(there()).toEqual(['QM-26', 'QM-26/Web shop', 'QM-26/Web shop/QM-26_0001.tif']);
    const small = bench.file('b.txt', 0);
    await bench.send(place({ logInBy: 'key', path: '.' }), sshd.privateKey, small);
    expect(statSync(join(sshd.files, 'b.txt')).size).toBe(0);
    expect(sshd.log()).toContain(`Accepted publickey for ${sshd.user}`);
  });

  test('a server that is killed in the middle: the file goes on where it was when the server is back', async () => {
    const file = bench.file('a.tif', 24 * MB);
    let killed: Promise<void> | null = null;
    bench.onProgress = (bytes) => {
      if (bytes > 9 * MB) killed ??= sshd.kill();
    };
    let isBack = false;
    const troubles: unknown[] = [];
    const onTrouble = (finding: { code: string } | null): number => troubles.push(finding?.code ?? null);
    const wait = async (): Promise<void> => {
      await killed;
      if (!isBack) await sshd.start();
      isBack = true;
    };
    await bench.send(place(), sshd.secret, file, { wait, onTrouble });
    expect(troubles.at(-1)).toBeNull();
    expect(troubles[0]).toMatch(/^send\./);
    expect(killed).not.toBeNull();
    const again = bench.heard.findIndex((bytes, index) => index > 0 && bytes < (bench.heard[index - 1] ?? 0));
    // 9 MB were answered for, of which the last two times 1 MiB that may lie under way are sent again.
    expect(bench.heard[again]).toBeGreaterThan(6 * MB);
    expect(bytesOf('a.tif').equals(readFileSync(file.path))).toBe(true);
    expect(there()).toEqual(['a.tif']);
  });

  test('what an earlier attempt left broken is found when it is read back, and sent anew', async () => {
    const file = bench.file('a.tif', 3 * MB);
    const part = join(sshd.files, `.a.tif.${file.sha256.slice(0, 16)}.part`);
    writeFileSync(part, Buffer.alloc(2 * MB));
    sshd.own(part);
    await bench.send(place(), sshd.secret, file);
    expect(bytesOf('a.tif').equals(readFileSync(file.path))).toBe(true);
    expect(there()).toEqual(['a.tif']);
  });

  test('a file of the same name is never overwritten; the same bytes are as good as sent', async () => {
    const [file, other] = [bench.file('a.tif', MB), bench.file('b.tif', MB, 7)];
    await bench.send(place(), sshd.secret, file);
    const { mtimeMs } = statSync(join(sshd.files, 'a.tif'));
    const twice = await bench.send(place(), sshd.secret, file);
    expect(twice.proof).toBe('read-back');
    const refusal = await refusalOf(bench.send(place(), sshd.secret, { ...other, name: 'a.tif' }));
    expect(refusal).toMatchObject({
      next: 'file',
      finding: { code: 'send.name-taken', args: { name: 'a.tif' } },
    });
    expect(bytesOf('a.tif').equals(readFileSync(file.path))).toBe(true);
    expect(statSync(join(sshd.files, 'a.tif')).mtimeMs).toBe(mtimeMs);
    expect(there()).toEqual(['a.tif']);
  });

  test('a server that is not known, or is another one, is told no log-in', async () => {
    const file = bench.file('a.tif', 10);
    const shown = sshd.fingerprint;
    const unknown = await refusalOf(bench.send(place({ hostKey: null }), sshd.secret, file));
    expect(unknown.finding).toEqual({ code: 'send.host-key-unknown', args: { host: '127.0.0.1', shown } });
    const known = `SHA256:${'A'.repeat(43)}`;
    const other = await refusalOf(bench.send(place({ hostKey: known }), sshd.secret, file));
    expect(other.finding).toMatchObject({ code: 'send.host-key-other', args: { shown, known } });
    expect(other.next).toBe('stop');
    // OpenSSH notes each log-in that was tried.
    expect(sshd.log()).not.toMatch(/Failed|Accepted/);
    expect(there()).toEqual([]);
    const tried = await tryPlace(
      place({ hostKey: null }),
      async () => null,
      defaultSendLimits,
      bench.abort.signal,
    );
    expect(tried).toMatchObject({ hostKey: shown, proof: null });
  });

  test.skipIf(!hasSshdOfRoot)('a wrong password or key is said at once, and not tried again', async () => {
    const file = bench.file('a.tif', 10);
    const refusal = await refusalOf(bench.send(place(), 'wrong-Password', file));
    expect(refusal).toMatchObject({ next: 'stop', finding: { code: 'send.log-in-refused' } });
    expect(JSON.stringify(refusal.finding)).not.toContain('wrong-Password');
    expect(sshd.log().match(/Failed password/g)).toHaveLength(1);
    const noKey = await refusalOf(bench.send(place({ logInBy: 'key' }), 'no key', file));
    expect(noKey.finding.code).toBe('send.bad-key');
  });

  test('a folder that is not there is not made, one that may not be written is said', async () => {
    const file = bench.file('a.tif', 10);
    const nowhere = place({ path: `${sshd.files}/missing` });
    expect((await refusalOf(bench.send(nowhere, sshd.secret, file))).finding.code).toBe(
      'send.no-folder-there',
    );
    expect(there()).toEqual([]);
    mkdirSync(join(sshd.files, 'shut'));
    chmodSync(join(sshd.files, 'shut'), 0o555);
    const shut = place({ path: `${sshd.files}/shut` });
    expect((await refusalOf(bench.send(shut, sshd.secret, file))).finding.code).toBe('send.not-allowed');
  });

  test('somebody who ends it is heard at once; the next attempt goes on', async () => {
    const file = bench.file('a.tif', 24 * MB);
    bench.onProgress = (bytes) => {
      if (bytes > 9 * MB) bench.abort.abort(new Error('ended by somebody'));
    };
    await expect(bench.send(place(), sshd.secret, file)).rejects.toThrow('ended by somebody');
    const fresh = new SendBench();
    await fresh.send(place(), sshd.secret, file);
    expect(fresh.heard[0]).toBeGreaterThan(6 * MB);
    expect(bytesOf('a.tif').equals(readFileSync(file.path))).toBe(true);
    fresh.remove();
  });

  test('a small file is tried and taken away again', async () => {
    const { signal } = bench.abort;
    const tried = await tryPlace(place(), async () => sshd.secret, defaultSendLimits, signal);
    expect(tried).toEqual({ hostKey: sshd.fingerprint, proof: 'read-back', findings: [] });
    expect(there()).toEqual([]);
  });

  // A small disk is mounted for it.
  test.skipIf(!hasSshdOfRoot)('a disk that is full there is said as that', async () => {
    await sshd.kill();
    await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=2m,mode=777', 'tmpfs', sshd.files]);
    try {
      await sshd.start();
      const file = bench.file('a.tif', 6 * MB);
      const refusal = await refusalOf(bench.send(place(), sshd.secret, file));
      expect(refusal).toMatchObject({ next: 'stop', finding: { code: 'send.disk-full' } });
    } finally {
      await sshd.kill();
      await runProgram('umount', [sshd.files]);
    }
  });

  describe('that lets nobody read', () => {
    beforeEach(async () => {
      await sshd.remove();
      sshd = await OwnSshd.make('read');
      await sshd.start();
    });

    test('the size is what can be known, and that is said', async () => {
      const file = bench.file('a.tif', MB);
      expect((await bench.send(place(), sshd.secret, file)).proof).toBe('size');
      expect(bytesOf('a.tif').equals(readFileSync(file.path))).toBe(true);
      const { signal } = bench.abort;
      const tried = await tryPlace(place(), async () => sshd.secret, defaultSendLimits, signal);
      expect(tried.findings.map(({ code }) => code)).toEqual(['send.size-only']);
    });
  });
});
