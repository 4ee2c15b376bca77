import { afterEach, expect, test } from 'vitest';
import {
  defaultFtpLimits,
  type FtpDoor,
  type LineReport,
  openSharedBooks,
  type SftpDoor,
  startFtpDoor,
  startSftpDoor,
} from '../../src/receive/index.ts';
import { FtpTalk } from '../flow/ftp-talk.ts';
import { connectSsh2, hostKeys } from './sftp-hall.ts';

/** What the doors of one station count together (RFC 2577 section 5 bounds guesses per client, not per port). */
const doors: (FtpDoor | SftpDoor)[] = [];
afterEach(async () => {
  for (const door of doors.splice(0)) await door.close();
});

const nobody = { admit: async () => null, admitKey: async () => null };
const place = { host: '127.0.0.1', port: 0 };
const limits = { loginDelayMs: 1, loginDelayMaxMs: 2, lingerMs: 200, loginFailuresPerMinuteMax: 3 };

test('who guesses at several doors has no more tries than at one', async () => {
  const shared = openSharedBooks({ ...defaultFtpLimits, ...limits });
  const asked: string[] = [];
  const keeper = {
    ...nobody,
    admit: async ({ via }: { via: string }) => {
      asked.push(via);
      return null;
    },
  };
  const reports: LineReport[] = [];
  const report = (said: LineReport): void => void reports.push(said);
  const ftp = await startFtpDoor({ ...place, passive: { from: 0, to: 0 }, limits, shared }, keeper, report);
  const sftp = await startSftpDoor({ ...place, hostKeys, limits, shared }, keeper, report);
  doors.push(ftp, sftp);
  const byFtp = async (): Promise<string> => {
    const talk = await FtpTalk.open({ ready: { ftp: ftp.port } });
    await talk.ask('USER camera');
    const answer = await talk.ask('PASS guess');
    talk.close();
    return answer.slice(0, 3);
  };
  const bySftp = (): Promise<string> =>
    connectSsh2(sftp.port, { username: 'camera', password: 'guess', authHandler: ['password'] }).then(
      () => 'came in',
      () => 'refused',
    );
  expect([await byFtp(), await bySftp(), await byFtp()]).toEqual(['530', 'refused', '530']);
  expect([await bySftp(), await byFtp()]).toEqual(['refused', '421']);
  expect(asked).toEqual(['ftp', 'sftp', 'ftp']);
  // One line for each log-in.
  expect(reports.filter(({ change }) => change === 'refused').map(({ finding }) => finding.code)).toEqual([
    'line.wrong-login',
    'line.wrong-login',
    'line.wrong-login',
    'line.too-many-logins',
    'line.too-many-logins',
  ]);
});
