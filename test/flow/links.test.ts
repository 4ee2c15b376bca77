import { execFileSync } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type MadeLink, madeLink } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** curl and OpenSSL as outside judges of the port that other devices come in by. */
describe.skipIf(!hasProgram('curl') || !hasProgram('openssl'))('the port for links', () => {
  let home: string;
  let dir: string;
  let root: string;
  let station: RunningStation;
  let made: MadeLink;
  let port: number;

  beforeAll(async () => {
    home = await newHome();
    dir = await mkdtemp(join(tmpdir(), 'setside-link-'));
    station = await startStation(home);
    root = join(dir, 'root.pem');
    const pem = await fetch(`${station.ready.web}/api/v1/station/certificate.pem`);
    await writeFile(root, await pem.text());
    made = await make({ scope: 'pocket', name: 'phone' });
    port = made.door.port ?? 0;
  });
  afterAll(async () => {
    await station.stop();
    await removeHome(home);
    await rm(dir, { recursive: true, force: true });
  });

  async function make(wish: object): Promise<MadeLink> {
    const answer = await fetch(`${station.ready.web}/api/v1/links`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(wish),
    });
    return madeLink.parse(await answer.json());
  }
  const tokenOf = ({ addresses }: MadeLink): string => addresses[0]?.url.split('#')[1] ?? '';
  const curl = (...args: readonly string[]): ReturnType<typeof runProgram> =>
    runProgram('curl', ['-sS', '--cacert', root, ...args]);
  const enter = (
    token: string,
    jar: string,
    base = `https://127.0.0.1:${port}`,
    ...more: readonly string[]
  ): ReturnType<typeof curl> =>
    curl(
      ...more,
      '-c',
      jar,
      '-w',
      '%{http_code}',
      '-o',
      '/dev/null',
      '--json',
      JSON.stringify({ token }),
      `${base}/api/v1/links/enter`,
    );

  test('the certificate is trusted by who trusts the station’s root, by address and by name, and by nobody else', async () => {
    for (const host of ['127.0.0.1', 'localhost']) {
      expect((await curl('--fail', `https://${host}:${port}/in`)).code, host).toBe(0);
    }
    // 60: the certificate cannot be verified (curl's manual, exit codes).
    expect((await runProgram('curl', ['-sS', `https://127.0.0.1:${port}/in`])).code).toBe(60);
  });

  test('TLS 1.1 and ciphers without forward secrecy are refused (RFC 8996, RFC 9325 section 4.2)', async () => {
    const shake = (...args: readonly string[]): string => {
      try {
        return execFileSync('openssl', ['s_client', '-connect', `127.0.0.1:${port}`, ...args], {
          input: '',
          encoding: 'utf8',
          stdio: ['pipe', 'pipe', 'ignore'],
        });
      } catch (failed) {
        return String((failed as { stdout?: string }).stdout);
      }
    };
    expect(shake('-tls1_2')).toMatch(/Cipher is ECDHE-/);
    expect(shake('-tls1_3')).toMatch(/Cipher is TLS_/);
    expect(shake('-tls1_1', '-cipher', 'ALL@SECLEVEL=0')).not.toMatch(/Cipher is ECDHE/);
    expect(shake('-tls1_2', '-cipher', 'AES128-GCM-SHA256:AES128-SHA')).not.toMatch(/Cipher is AES/);
  });

  test('the secret stands behind the # of the address, and in no file of the home', async () => {
    expect(
      made.addresses.every(({ url }) => /^https?:\/\/[^#]+\/in#([a-z2-9]{4}-){6}[a-z2-9]{4}$/.test(url)),
    ).toBe(true);
    const file = await readFile(join(home, 'keys', 'links.json'), 'utf8');
    expect(file).toContain('phone');
    expect(file).not.toContain(tokenOf(made).replaceAll('-', ''));
  });

  test('without a link nothing is told, with one what its scope reaches; in clear too, with a cookie of its own', async () => {
    const jar = join(dir, 'jar');
    expect((await curl('-w', '%{http_code}', `https://127.0.0.1:${port}/api/v1/frames`)).stdout).toMatch(
      /link-needed.*403$/s,
    );
    expect((await enter(tokenOf(made), jar)).stdout).toBe('200');
    expect(await readFile(jar, 'utf8')).toMatch(
      /#HttpOnly_127\.0\.0\.1\tFALSE\t\/\tTRUE\t\d+\t__Host-setside\t/,
    );
    const told = await curl('-b', jar, `https://127.0.0.1:${port}/api/v1/station`);
    expect(JSON.parse(told.stdout)).toMatchObject({ home: '', cameras: [{ password: null }] });
    expect(told.stdout).not.toContain(station.password);
    expect(
      (
        await curl(
          '-b',
          jar,
          '-w',
          '%{http_code}',
          '-o',
          '/dev/null',
          `https://127.0.0.1:${port}/api/v1/links`,
        )
      ).stdout,
    ).toBe('403');
    // What is under TLS is not known in clear, and the other way round.
    expect(
      (
        await curl(
          '-b',
          jar,
          '-w',
          '%{http_code}',
          '-o',
          '/dev/null',
          `http://127.0.0.1:${port}/api/v1/station`,
        )
      ).stdout,
    ).toBe('403');
    const clear = join(dir, 'clear');
    expect((await enter(tokenOf(made), clear, `http://127.0.0.1:${port}`)).stdout).toBe('200');
    expect(await readFile(clear, 'utf8')).toMatch(/#HttpOnly_127\.0\.0\.1\tFALSE\t\/\tFALSE\t\d+\tsetside\t/);
  });

  test('links outlive a restart of the station; an ended one does not come back', async () => {
    const other = await make({ scope: 'operator', name: 'second screen' });
    const jar = join(dir, 'operator');
    expect((await enter(tokenOf(other), jar)).stdout).toBe('200');
    await station.stop();
    station = await startStation(home, ['--links', String(port)]);
    const status = async (path: string): Promise<string> =>
      (await curl('-b', jar, '-w', '%{http_code}', '-o', '/dev/null', `https://127.0.0.1:${port}${path}`))
        .stdout;
    expect(await status('/api/v1/links')).toBe('200');
    await fetch(`${station.ready.web}/api/v1/links/${other.link.id}`, { method: 'DELETE' });
    expect(await status('/api/v1/links')).toBe('403');
  });

  test('an operator link that was tried in clear has been read along: it is refused, and ended', async () => {
    const madeForScreen = await make({ scope: 'operator', name: 'read along' });
    const token = tokenOf(madeForScreen);
    // On this computer itself nothing has crossed a network: refused, and good over an encrypted line.
    expect((await enter(token, join(dir, 'no'), `http://127.0.0.1:${port}`)).stdout).toBe('403');
    expect((await enter(token, join(dir, 'yes'))).stdout).toBe('200');
    const { hostname } = new URL(madeForScreen.addresses[0]?.url ?? '');
    // As from another device: by this computer’s name or address on the network, whoever looks that up.
    const fromOutside = [`http://${hostname}:${port}`, '--connect-to', '::127.0.0.1:'] as const;
    expect((await enter(token, join(dir, 'no'), ...fromOutside)).stdout).toBe('403');
    expect((await enter(token, join(dir, 'no'))).stdout).toBe('403');
  });

  test('setside link makes, lists and ends links; wrong use is 2, no is 1', async () => {
    const setside = (...args: readonly string[]): ReturnType<typeof runProgram> =>
      runProgram(process.execPath, [
        join(import.meta.dirname, '../../bin/setside.mjs'),
        'link',
        ...args,
        '--home',
        home,
      ]);
    const added = await setside('add', 'pocket', '--for', 'tripod', '--hours', '2', '--json');
    const { link, addresses } = madeLink.parse(JSON.parse(added.stdout));
    expect(Date.parse(link.ends) - Date.parse(link.made)).toBe(2 * 3_600_000);
    expect((await enter(addresses[0]?.url.split('#')[1] ?? '', join(dir, 'tripod'))).stdout).toBe('200');
    expect((await setside('list')).stdout).toMatch(
      new RegExp(`^${link.id} {2}tripod {2}pocket {2}1 in`, 'm'),
    );
    const plain = await setside('add', 'operator');
    expect(plain.stdout).toMatch(/^https:\/\/\S+\/in#\S+$/m);
    expect(plain.stdout).not.toContain('http://');
    const ended = await setside('end', 'tripod');
    expect(ended.code).toBe(0);
    expect(ended.stdout).toContain('has ended: the one who was in by it is out.');
    const nobody = await setside('add', 'guest', '--job', 'NOPE');
    expect(nobody.code).toBe(1);
    expect(nobody.stderr).toContain('setside job list shows those there are');
    expect((await setside('end', 'tripod')).code).toBe(1);
    expect((await setside('add', 'guest')).code).toBe(2);
    expect((await setside('add', 'somebody')).code).toBe(2);
    expect((await setside('add', 'pocket', '--hours', '0')).code).toBe(2);
  });

  // Last, since the place it guesses from is turned away for a while.
  test('a thousand guesses at once are turned away unlooked at, while a device that is in goes on and a camera sends', async () => {
    const jar = join(dir, 'in');
    expect((await enter(tokenOf(made), jar)).stdout).toBe('200');
    const guess = join(dir, 'guess');
    await writeFile(guess, '{"token":"aaaa-bbbb-cccc-dddd-eeee-ffff-gggg"}');
    const hammer = curl(
      '--parallel',
      '--parallel-max',
      '20',
      '-o',
      '/dev/null',
      '-w',
      '%{http_code}\n',
      '-H',
      'content-type: application/json',
      '--data',
      `@${guess}`,
      `https://127.0.0.1:${port}/api/v1/links/enter?[1-1000]`,
    );
    const file = join(dir, 'A.TXT');
    await writeFile(file, 'a frame');
    expect((await curlUpload(station, file, '/A.TXT')).code).toBe(0);
    await eventually('the device goes on', async () => {
      const frames = await curl('-b', jar, `https://127.0.0.1:${port}/api/v1/frames`);
      return frames.stdout.includes('A.TXT');
    });
    const answers = (await hammer).stdout.trim().split('\n');
    const looked = answers.filter((status) => status === '403').length;
    expect(answers).toHaveLength(1000);
    expect(new Set(answers)).toEqual(new Set(['403', '429']));
    // Ten at once, and those that a slow run gives back meanwhile.
    expect(looked).toBeLessThan(40);
  });
});
