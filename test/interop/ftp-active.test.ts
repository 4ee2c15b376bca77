import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { hasProgram, runProgram } from '../flow/clients.ts';
import { type Hall, openHall } from './ftp-hall.ts';
import { expectSuccess, runBasicFtp, runCurl, runFtplib, runLftp } from './ftp-programs.ts';

/**
 * Active mode and IPv6 with clients that others wrote. What the folder holds is compared byte for byte; which command
 * a client chose is read from what it prints, where it prints it.
 */
const frame = new Uint8Array(2_500_000).map((_, index) => (Math.imul(index, 2_246_822_519) >>> 11) & 0xff);
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const four = '127.0.0.1';
const six = '::1';

let place: string;
let file: string;
let hall: Hall;

beforeAll(() => {
  place = mkdtempSync(join(tmpdir(), 'setside-ftp-active-'));
  file = join(place, 'SET_0001.DNG');
  writeFileSync(file, frame);
});
afterAll(() => rmSync(place, { recursive: true, force: true }));
beforeEach(async () => {
  hall = await openHall({ host: '::' });
});
afterEach(() => hall.door.close());

function expectKept(path: string): void {
  const held = hall.folder.read(path);
  expect(held === null ? 'nothing' : sha256(held), path).toBe(sha256(frame));
}

for (const host of [four, six]) {
  const family = host === four ? 'IPv4' : 'IPv6';

  test.skipIf(!hasProgram('curl'))(`curl uploads over EPSV and over EPRT, ${family}`, async () => {
    await runCurl(hall.door.port, file, '/passive.dng', [], host);
    await runCurl(hall.door.port, file, '/active.dng', ['-P', '-'], host);
    expectKept('/passive.dng');
    expectKept('/active.dng');
  });

  test.skipIf(!hasProgram('lftp'))(`lftp uploads and lists in active mode, ${family}`, async () => {
    const script = `set ftp:passive-mode off; put ${file} -o a.dng; cls -1`;
    expect((await runLftp(hall.door.port, script, host)).trim()).toBe('a.dng');
    expectKept('/a.dng');
  });

  test.skipIf(!hasProgram('tnftp'))(`tnftp uploads and lists in active mode, ${family}`, async () => {
    const script = `open ${host} ${hall.door.port}\nuser camera right\nbinary\nput ${file} a.dng\nls\nbye\n`;
    const printed = await expectSuccess(runProgram('tnftp', ['-n', '-v', '-d', '-A'], { input: script }));
    expect(printed).toContain(`EPRT |${host === four ? 1 : 2}|${host}|`);
    expect(printed).toContain('226 Kept, 2500000 bytes.');
    expectKept('/a.dng');
  });

  test.skipIf(!hasProgram('python3'))(
    `Python's ftplib uploads and lists in active mode, ${family}`,
    async () => {
      const script = `
ftp.set_pasv(False)
with open(path + '/SET_0001.DNG', 'rb') as f: print(ftp.storbinary('STOR a.dng', f))
print(ftp.nlst())
ftp.quit()`;
      const printed = await runFtplib(hall.door.port, place, script, host);
      expect(printed.trim().split('\n')).toEqual(['226 Kept, 2500000 bytes.', "['a.dng']"]);
      expectKept('/a.dng');
    },
  );

  test(`basic-ftp uploads, ${family}`, async () => {
    await runBasicFtp(
      hall.door.port,
      async (client) => {
        await client.uploadFrom(file, 'a.dng');
      },
      host,
    );
    expectKept('/a.dng');
  });
}

test.skipIf(!hasProgram('curl'))('curl uploads over PORT', async () => {
  await runCurl(hall.door.port, file, '/a.dng', ['--disable-eprt', '-P', '-'], four);
  expectKept('/a.dng');
});

test.skipIf(!hasProgram('ncftpput'))('ncftpput uploads over PORT', async () => {
  const to = ['-E', '-u', 'camera', '-p', 'right', '-P', String(hall.door.port), four, '/'];
  await expectSuccess(runProgram('ncftpput', [...to, file]));
  expectKept('/SET_0001.DNG');
});

test.skipIf(!hasProgram('curl'))(
  '5.5 a client that gives an address other than its own is refused, and curl says so',
  async () => {
    // curl's exit code 30: the PORT command failed. 127.0.0.2 is this computer too, but not where the client is.
    const args = ['-sS', '--disable-eprt', '-P', '127.0.0.2', '-T', file];
    const ran = await runProgram('curl', [...args, `ftp://camera:right@${four}:${hall.door.port}/a.dng`]);
    expect(ran.code, ran.stderr).toBe(30);
    expect(hall.folder.ends).toEqual([]);
  },
);
