import { execFileSync } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { hasProgram } from '../../test/flow/clients.ts';
import { runCommand } from './run-command.ts';

/** `setside camera` on a home whose station does not run, and what wrong use of commands within commands ends with. */
let home: string;

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-camera-command-'));
  for (const folder of ['journal', 'keys']) await mkdir(join(home, folder));
  await camera('add', 'cam1');
});
afterEach(() => rm(home, { recursive: true, force: true }));

interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function setside(...words: string[]): Promise<Said> {
  const said = { out: '', err: '' };
  const hear = (which: 'out' | 'err') => (text: unknown) => {
    said[which] += String(text);
    return true;
  };
  const spies = [
    vi.spyOn(process.stdout, 'write').mockImplementation(hear('out')),
    vi.spyOn(process.stderr, 'write').mockImplementation(hear('err')),
    vi.spyOn(process, 'exit').mockImplementation((code) => {
      throw new Error(`the command ended the process itself, with ${code}`);
    }),
  ];
  try {
    return { code: await runCommand(words), ...said };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

const camera = (...words: string[]): Promise<Said> => setside('camera', ...words, '--home', home);
const stored = async (name: string): Promise<Record<string, unknown>> => {
  const cameras: unknown = JSON.parse(await readFile(join(home, 'keys/cameras.json'), 'utf8'));
  return (Array.isArray(cameras) ? cameras.find((each) => each.name === name) : undefined) ?? {};
};

describe.skipIf(!hasProgram('ssh-keygen'))('keys made by OpenSSH’s ssh-keygen', () => {
  const make = (name: string, ...words: string[]): string => {
    const file = join(home, name);
    execFileSync('ssh-keygen', ['-q', '-N', '', '-C', `${name} key`, '-f', file, ...words]);
    return file;
  };
  const printOf = (file: string): string =>
    execFileSync('ssh-keygen', ['-lf', `${file}.pub`], { encoding: 'utf8' }).split(' ')[1] ?? '';

  test('a private key is refused with the file to give instead, is not said again, and is stored nowhere', async () => {
    const file = make('id_wrong', '-t', 'ed25519');
    const text = await readFile(file, 'utf8');
    for (const given of [file, text]) {
      const run = await camera('change', 'cam1', '--key', given);
      expect(run.code).toBe(2);
      expect(run.err).toMatch(/private key.*\n.*\.pub/);
      expect(`${run.out}${run.err}`).not.toContain(text.split('\n')[1]);
    }
    expect((await camera('change', 'cam1', '--key', file)).err).toContain(`${file}.pub`);
    expect(await stored('cam1')).toMatchObject({ keys: [] });
  });

  test('keys are added by file or line, shown by fingerprint and comment, and dropped by fingerprint', async () => {
    const a = make('id_a', '-t', 'ed25519');
    const b = make('id_b', '-t', 'ecdsa');
    await camera('change', 'cam1', '--key', `${a}.pub`);
    await camera('change', 'cam1', '--key', (await readFile(`${b}.pub`, 'utf8')).trim());
    const { out } = await camera('list');
    for (const shown of [printOf(a), printOf(b), 'id_a key', 'id_b key']) expect(out).toContain(shown);
    const dropped = await camera('change', 'cam1', '--drop-key', printOf(a), '--json');
    expect(JSON.parse(dropped.out)).toMatchObject({
      keys: [{ kind: 'ecdsa', fingerprint: printOf(b), comment: 'id_b key' }],
    });
    const again = await camera('change', 'cam1', '--drop-key', printOf(a));
    expect([again.code, again.err.includes(printOf(b))]).toEqual([1, true]);
  });
});

test.each(['nonsense', 'no such words', 'ssh-dss AAAAB3NzaC1kc3M= old', ''])(
  '%j is no key, and wrong use',
  async (text) => {
    expect((await camera('change', 'cam1', '--key', text)).code).toBe(2);
    expect(await stored('cam1')).toMatchObject({ keys: [] });
  },
);

test('--anywhere and --allow exclude each other, and so do a network of everybody and a narrower one', async () => {
  await camera('change', 'cam1', '--allow', '192.168.7.20');
  const run = await camera('change', 'cam1', '--anywhere', '--allow', '192.168.7.21');
  expect([run.code, run.err.includes('--anywhere')]).toEqual([2, true]);
  expect((await camera('change', 'cam1', '--allow', '::/0', '--allow', '192.168.7.21')).code).toBe(2);
  expect(await stored('cam1')).toMatchObject({ allow: ['192.168.7.20'] });
  expect((await camera('change', 'cam1', '--anywhere')).code).toBe(0);
  expect(await stored('cam1')).toMatchObject({ allow: [] });
});

test('a camera of a watched folder has no door, and no log-in is shown for it', async () => {
  const { password } = await stored('cam1');
  const { out } = await camera('change', 'cam1', '--protocol', 'none');
  expect(out).toContain('by no door');
  expect(out).not.toContain(password);
});

test.each([
  [['camera']],
  [['camera', 'nonsense']],
  [['camera', 'add']],
  [['camera', 'list', '--nonsense']],
  [['camera', 'list', 'one-too-many']],
  [['camera', 'diary', '--limit', '0']],
  [['camera', 'change', 'cam1', '--protocol', 'http']],
  [['job']],
  [['job', 'nonsense']],
  [['job', 'open']],
  [['job', 'list', '--nonsense']],
  [['job', 'list', '--web', 'abc']],
  [['job', 'list', '--web', '0']],
  [['job', 'import', 'A']],
  [['job', 'export', 'A', '--format']],
])('setside %j ends with 2', async (words) => {
  expect((await setside(...words)).code).toBe(2);
});

test.each([[['add', 'a b']], [['change', 'cam1', '--allow', 'somewhere']]])(
  'camera %j is wrong use too',
  async (words) => {
    expect((await camera(...words)).code).toBe(2);
  },
);

test.each([
  [['diary', 'Nope']],
  [['end', 'Nope']],
  [['return', 'Nope']],
  [['password', 'Nope']],
  [['change', 'Nope', '--anywhere']],
])('camera %j: there is no such camera, with those there are', async (words) => {
  const run = await camera(...words);
  expect([run.code, run.err.includes('There is only cam1.')]).toEqual([1, true]);
});

test('the diary of a camera has no coming and going of others, and its help says whose lines it has', async () => {
  await mkdir(join(home, 'diary'));
  const at = new Date().toISOString();
  const lines = ['connected', 'wrong-login'].map((what) => {
    const finding = { code: `line.${what}`, args: { address: '192.168.7.9', user: 'cam7' } };
    return JSON.stringify({ at, camera: null, address: '192.168.7.9', finding });
  });
  await writeFile(join(home, 'diary', `${at.slice(0, 10)}.jsonl`), `${lines.join('\n')}\n`);
  const { out } = await camera('diary', 'cam1');
  expect(out).toContain('cam7');
  expect(out).not.toContain('reached the station');
  expect((await setside('camera', 'diary', '--help')).out.replace(/\s+/g, ' ')).toContain(
    'what that camera did, and who was not let in',
  );
});

test('help is no wrong use', async () => {
  expect([(await setside('camera', '--help')).code, (await setside('job', 'list', '--help')).code]).toEqual([
    0, 0,
  ]);
});

test('a diary without a line says so, and a camera that is there already is the answer no', async () => {
  expect(await camera('diary', 'cam1')).toMatchObject({ code: 0, out: 'Nothing in the last 30 days.\n' });
  const again = await camera('add', 'CAM1');
  expect([again.code, again.err.includes('there is a camera cam1 already')]).toEqual([1, true]);
  await camera('add', 'cam2');
  expect((await camera('end', 'Nope')).err).toContain('There are cam1, cam2.');
});
