import { createHash, randomBytes } from 'node:crypto';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startWebDoor, type WebDoor } from '../../src/serve/index.ts';
import { DeskFake } from '../../src/serve/testing/desk-fake.ts';
import { hasProgram, runProgram } from './clients.ts';

/** curl as outside judge of downloads: it resumes by RFC 9110 section 14 and gives up where an answer does not fit. */
describe.skipIf(!hasProgram('curl'))('originals by curl', () => {
  const bytes = randomBytes(3 * 1024 * 1024 + 17);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  let dir: string;
  let door: WebDoor;
  let url: string;

  beforeAll(async () => {
    dir = await mkdtemp(join(tmpdir(), 'setside-curl-'));
    const desk = new DeskFake();
    const path = join(dir, 'kept');
    await writeFile(path, bytes);
    desk.originals.set('f1/Größe 1.DNG', { path, sizeBytes: bytes.length, sha256 });
    door = await startWebDoor({ host: '127.0.0.1', port: 0, pageDir: join(dir, 'page'), version: '0' }, desk);
    url = `${door.url}/api/v1/frames/f1/files/${encodeURIComponent('Größe 1.DNG')}`;
  });
  afterAll(async () => {
    await door.close();
    await rm(dir, { recursive: true, force: true });
  });

  const curl = (...args: readonly string[]): ReturnType<typeof runProgram> =>
    runProgram('curl', ['-sS', '--fail', ...args]);
  const hashOf = async (name: string): Promise<string> =>
    createHash('sha256')
      .update(await readFile(join(dir, name)))
      .digest('hex');

  test('a whole download is the bytes that were received', async () => {
    expect((await curl('-o', join(dir, 'whole'), url)).code).toBe(0);
    expect(await hashOf('whole')).toBe(sha256);
  });

  test('a download cut short is resumed to the very same bytes', async () => {
    await writeFile(join(dir, 'part'), bytes.subarray(0, 1_234_567));
    const ran = await curl('-C', '-', '-w', '%{http_code} %{size_download}', '-o', join(dir, 'part'), url);
    expect(ran.stdout).toBe(`206 ${bytes.length - 1_234_567}`);
    expect(await hashOf('part')).toBe(sha256);
  });

  test('the last bytes alone are the last bytes', async () => {
    expect((await curl('-r', '-17', '-o', join(dir, 'tail'), url)).code).toBe(0);
    expect(await readFile(join(dir, 'tail'))).toEqual(bytes.subarray(-17));
  });

  test('a range past the end fails as curl understands it (--fail: exit code 22, from curl’s manual)', async () => {
    const ran = await curl('-r', `${bytes.length}-`, url);
    expect(ran.code).toBe(22);
    expect(ran.stderr).toContain('416');
  });

  test('HEAD is answered at once with the length of the file', async () => {
    const ran = await curl('-I', url);
    expect(ran.stdout).toMatch(new RegExp(`^content-length: ${bytes.length}\r?$`, 'im'));
  });

  test('two calls share one connection, so an answer’s length is what was sent', async () => {
    const ran = await curl('-w', '%{num_connects}\\n', '-o', join(dir, 'a'), url, '-o', join(dir, 'b'), url);
    expect(ran.stdout).toBe('1\n0\n');
  });

  test('a name that climbs is refused also where the client leaves it as it is', async () => {
    const ran = await runProgram('curl', [
      '-sS',
      '--path-as-is',
      '-w',
      ' %{http_code}',
      `${door.url}/api/v1/frames/f1/files/../../../../../../etc/passwd`,
    ]);
    expect(ran.stdout).toMatch(/ 404$/);
    expect(ran.stdout).not.toContain('root:');
  });

  test('events run on without end, and the beginning comes at once', async () => {
    const ran = await runProgram('curl', ['-sSN', '--max-time', '1', `${door.url}/api/v1/events`]);
    expect(ran.code).toBe(28);
    expect(ran.stdout).toBe('retry: 2000\n\nid: run1-0\n\n');
  });
});
