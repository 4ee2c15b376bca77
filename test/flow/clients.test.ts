import { createHash, randomBytes } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'basic-ftp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasProgram, runProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** General-purpose clients against the whole station: what each acknowledges must lie on the disk, byte for byte. */
describe('real clients upload to the whole station', () => {
  let station: RunningStation;
  let folder: string;
  let content: Buffer;
  let file: string;

  beforeAll(async () => {
    station = await startStation(await newHome());
    folder = await mkdtemp(join(tmpdir(), 'setside-clients-'));
    content = randomBytes(700_000);
    file = join(folder, 'FRAME.BIN');
    await writeFile(file, content);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(station.home);
    await rm(folder, { recursive: true, force: true });
  });

  const expectKept = async (name: string, bytes = content): Promise<void> => {
    // A kept file that is appended to stays as it was; the longer one is an original of its own under the same name.
    const kept = (await station.frames())
      .filter((frame) => frame.name === name)
      .flatMap(({ files }) => files);
    expect(kept.at(-1), name).toMatchObject({
      size: bytes.length,
      sha256: createHash('sha256').update(bytes).digest('hex'),
    });
  };

  test.skipIf(!hasProgram('lftp'))('lftp: upload, a rename after it, a listing, a resume', async () => {
    const half = join(folder, 'HALF.BIN');
    await writeFile(half, content.subarray(0, 300_000));
    const script = [
      'set ftp:ssl-allow no',
      'set net:max-retries 1',
      `open -u ${station.user},${station.password} ${station.ftpUrl}`,
      'mkdir -p DCIM/100LFTP_',
      'cd DCIM/100LFTP_',
      `put ${file} -o LFTP0001.TMP`,
      'mv LFTP0001.TMP LFTP0001.BIN',
      'cls -1',
      `put ${half} -o LFTP0002.BIN`,
      `put -c ${file} -o LFTP0002.BIN`,
      'bye',
    ].join('\n');
    const run = await runProgram('lftp', ['-c', script]);
    expect(run.code, run.stderr).toBe(0);
    expect(run.stdout).toContain('LFTP0001.BIN');
    await expectKept('LFTP0001.BIN');
    await expectKept('LFTP0002.BIN');
  });

  test.skipIf(!hasProgram('python3'))(
    'Python ftplib: storbinary, size, and a second connection beside it',
    async () => {
      const script = `
import ftplib, sys
host, port, user, password, path = sys.argv[1:6]
ftp = ftplib.FTP(); ftp.connect(host, int(port)); ftp.login(user, password)
other = ftplib.FTP(); other.connect(host, int(port)); other.login(user, password)
ftp.mkd('/PYTHON'); ftp.cwd('/PYTHON')
with open(path, 'rb') as f: print(ftp.storbinary('STOR PY000001.BIN', f))
other.voidcmd('TYPE I'); print(other.size('/PYTHON/PY000001.BIN'))
print(sorted(name for name, facts in other.mlsd('/PYTHON')))
ftp.quit(); other.quit()
`;
      const args = [
        '-c',
        script,
        '127.0.0.1',
        String(station.ready.ftp),
        station.user,
        station.password,
        file,
      ];
      const run = await runProgram('python3', args);
      expect(run.code, run.stderr).toBe(0);
      expect(run.stdout).toMatch(/^226 /);
      expect(run.stdout).toContain(`\n${content.length}\n`);
      expect(run.stdout).toContain("['PY000001.BIN']");
      await expectKept('PY000001.BIN');
    },
  );

  test.skipIf(!hasProgram('ncftpput'))('ncftpput: upload into a folder it makes', async () => {
    const login = ['-u', station.user, '-p', station.password, '-P', String(station.ready.ftp)];
    const run = await runProgram('ncftpput', ['-m', ...login, '127.0.0.1', '/NCFTP', file]);
    expect(run.code, run.stderr).toBe(0);
    await expectKept('FRAME.BIN');
  });

  test('basic-ftp: upload, append, and a deletion that hides but never deletes', async () => {
    const client = new Client();
    await client.access({
      host: '127.0.0.1',
      port: station.ready.ftp ?? 0,
      user: station.user,
      password: station.password,
    });
    await client.ensureDir('/BASIC');
    await client.uploadFrom(file, 'BASIC001.BIN');
    await client.remove('BASIC001.BIN');
    expect((await client.list()).map(({ name }) => name)).toEqual([]);
    client.close();
    await expectKept('BASIC001.BIN');
  });

  test.skipIf(!hasProgram('curl'))('active mode: curl by EPRT and by PORT, over IPv4 and IPv6', async () => {
    const login = ['-sS', '-g', '--user', `${station.user}:${station.password}`, '-T', file];
    const uploads = [
      ['-P', '127.0.0.1', `${station.ftpUrl}/ACT00001.BIN`],
      ['-P', '127.0.0.1', '--disable-eprt', `${station.ftpUrl}/ACT00002.BIN`],
      ['-P', '::1', `ftp://[::1]:${station.ready.ftp}/ACT00003.BIN`],
    ];
    for (const args of uploads) {
      const run = await runProgram('curl', [...login, ...args]);
      expect(run.code, run.stderr).toBe(0);
    }
    for (const name of ['ACT00001.BIN', 'ACT00002.BIN', 'ACT00003.BIN']) await expectKept(name);
  });

  test('an upload over IPv6 arrives as one over IPv4 does', async () => {
    const run = await runProgram('curl', [
      '-sS',
      '-g',
      '--user',
      `${station.user}:${station.password}`,
      '-T',
      file,
      `ftp://[::1]:${station.ready.ftp}/SIX00001.BIN`,
    ]);
    expect(run.code, run.stderr).toBe(0);
    await expectKept('SIX00001.BIN');
  });
});
