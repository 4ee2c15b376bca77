import { execFileSync } from 'node:child_process';
import { readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { station as stationShape } from '../../src/contract/index.ts';
import { hasProgram, type Ran, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const setside = (...args: string[]): Promise<Ran> => runProgram(process.execPath, [binary, ...args]);

/** `setside camera` and `setside job` beside a station: keys, and where the station is. */
describe.skipIf(!hasProgram('ssh-keygen'))('commands beside a running station', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
  });
  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  const camera = (...args: string[]): Promise<Ran> => setside('camera', ...args, '--home', home);
  const key = (name: string, ...args: string[]): string => {
    const file = join(home, name);
    execFileSync('ssh-keygen', ['-q', '-N', '', '-C', `${name} key`, '-f', file, ...args]);
    return file;
  };
  const printOf = (file: string): string =>
    execFileSync('ssh-keygen', ['-lf', file], { encoding: 'utf8' }).split(' ')[1] ?? '';

  test('keys that a command adds are told by fingerprint by the station', async () => {
    const files = [key('id_a', '-t', 'ed25519'), key('id_b', '-t', 'ecdsa')];
    const [a = '', b = ''] = files;
    expect((await camera('add', 'keyed', '--key', `${a}.pub`, '--key', `${b}.pub`)).code).toBe(0);
    const told = await eventually('the station follows', async () => {
      const answer = await fetch(`${station.ready.web}/api/v1/station`);
      const entry = stationShape.parse(await answer.json()).cameras.find(({ name }) => name === 'keyed');
      return entry?.keys.length === 2 ? entry.keys : null;
    });
    expect(told).toEqual([
      { kind: 'ed25519', fingerprint: printOf(`${a}.pub`), comment: 'id_a key' },
      { kind: 'ecdsa', fingerprint: printOf(`${b}.pub`), comment: 'id_b key' },
    ]);
  });

  test('a row time that a command says is told by the station, and one that is none is refused', async () => {
    const rowTimeOf = async (): Promise<number | null | undefined> => {
      const answer = await fetch(`${station.ready.web}/api/v1/station`);
      return stationShape.parse(await answer.json()).cameras.find(({ name }) => name === 'cam1')?.rowTimeUs;
    };
    expect(await rowTimeOf()).toBeNull();
    const said = await camera('change', 'cam1', '--row-time', '3.75');
    expect(said.code).toBe(0);
    expect(said.stdout).toMatch(/rows +3\.75 /);
    await eventually('the station follows', async () => (await rowTimeOf()) === 3.75);
    expect((await camera('change', 'cam1', '--row-time', '1001')).code).toBe(2);
    expect((await camera('change', 'cam1', '--row-time', 'none')).code).toBe(0);
    await eventually('the station follows again', async () => (await rowTimeOf()) === null);
  }, 60_000);

  test('by call too: a private key is refused in words, a public one is added and dropped', async () => {
    const patch = async (body: object): Promise<{ status: number; text: string }> => {
      const answer = await fetch(`${station.ready.web}/api/v1/cameras/cam1`, {
        method: 'PATCH',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
      return { status: answer.status, text: await answer.text() };
    };
    const file = key('id_call', '-t', 'ed25519');
    const refused = await patch({ addKeys: [await readFile(file, 'utf8')] });
    expect([refused.status, refused.text.includes('.pub')]).toEqual([400, true]);
    const added = await patch({ addKeys: [await readFile(`${file}.pub`, 'utf8')] });
    expect(JSON.parse(added.text)).toMatchObject({ keys: [{ fingerprint: printOf(`${file}.pub`) }] });
    const dropped = await patch({ dropKeys: [printOf(`${file}.pub`)] });
    expect(JSON.parse(dropped.text)).toMatchObject({ keys: [] });
    expect((await patch({ anywhere: true, allow: ['192.168.7.20'] })).status).toBe(400);
    const open = await patch({ allow: ['0.0.0.0/0', '192.168.7.20'] });
    expect([open.status, open.text.includes('everywhere-and-more')]).toEqual([400, true]);
  });

  test('the station of a home is found by the home, whatever its port, and by its port', async () => {
    const { port } = new URL(station.ready.web);
    const list = await setside('job', 'open', 'FOUND', '--home', home, '--json');
    expect([list.code, list.stderr]).toEqual([0, '']);
    expect(JSON.parse(list.stdout)).toMatchObject({ code: 'FOUND' });
    expect((await setside('job', 'list', '--web', port)).stdout).toContain('FOUND');
    expect((await stat(join(home, 'station.address'))).mode & 0o777).toBe(0o600);
  });

  test('where none runs a sentence says so; an address that a killed one left leads to no other station', async () => {
    const other = await newHome();
    const none = await setside('job', 'list', '--home', other);
    expect([none.code, none.stderr.includes(`no station runs in ${other}`)]).toEqual([3, true]);
    await writeFile(join(other, 'station.address'), `${station.ready.web}\n`);
    expect((await setside('job', 'list', '--home', other)).stderr).toContain('no station runs in');
    await writeFile(join(other, 'station.address'), 'http://127.0.0.1:9\n');
    expect((await setside('job', 'list', '--home', other)).stderr).toContain('no station runs in');
    await removeHome(other);
  });
});
