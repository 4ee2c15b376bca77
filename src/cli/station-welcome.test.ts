import { expect, test } from 'vitest';
import type { Camera } from '../station/index.ts';
import { type Welcomed, welcome } from './station-welcome.ts';

const camera = (name: string, change: Partial<Camera> = {}): Camera => ({
  name,
  user: name,
  password: `${name}-secret`,
  allow: [],
  protocols: ['ftp', 'ftps', 'sftp'],
  keys: [],
  rowTimeUs: null,
  ended: false,
  ...change,
});
const said = (cameras: readonly Camera[], change: Partial<Welcomed> = {}): string =>
  welcome(
    {
      ready: {
        ready: true,
        web: 'http://127.0.0.1:1',
        ftp: 2121,
        ftps: 2990,
        sftp: 2222,
        home: '/h',
        cameras: [],
      },
      troubles: [],
      addresses: [],
      demo: false,
      cameras,
      watches: [{ camera: 'card', folder: '/media/card' }],
      encryptedOnly: false,
      explicitTls: true,
      ...change,
    },
    { from: 50_000, to: 50_099 },
  );

test('the terminal names the doors a camera may use and no other', () => {
  const all = said([camera('cam1')]);
  for (const port of ['port 2121', 'port 2990', 'port 2222']) expect(all).toContain(port);
  const sftpOnly = said([camera('cam1', { protocols: ['sftp'] })]);
  expect(sftpOnly).toContain('port 2222');
  expect(sftpOnly).not.toMatch(/\bFTP {2}|FTPS|2121|2990|in clear/);
});

test('a camera that only comes by a watched folder has its folder and no log-in', () => {
  const text = said([camera('card', { protocols: [] })]);
  expect(text).toContain('/media/card, watched on this computer');
  expect(text).not.toMatch(/card-secret|server|port/);
});

test('an ended camera is told as ended and shows no log-in', () => {
  const text = said([camera('cam1'), camera('gone', { ended: true })]);
  expect(text).toContain('Ended, may not come in: gone');
  expect(text).not.toContain('gone-secret');
});

test('where encryption is asked for plain FTP is not offered, and doors that are shut are said', () => {
  expect(said([camera('cam1')], { encryptedOnly: true })).not.toMatch(/^ {4}FTP {2}/m);
  const text = said([camera('cam1', { protocols: ['ftps'] })], { explicitTls: false });
  expect(text).toContain('implicit: port 2990');
  expect(text).not.toContain('explicit');
});

test('where cameras are shut out no server is told, and the note says what to do', () => {
  const troubles = [{ code: 'line.no-private-address', args: { address: '192.0.2.2' } }];
  const text = said([camera('cam1')], { troubles });
  expect(text).toMatch(/^ {4}server +none yet: cameras are shut out, see the note$/m);
  expect(text).toMatch(/Note: .*--bind 192\.0\.2\.2/);
});

test('what is the same on every camera is said once, and each camera takes one line', () => {
  const one = said([camera('cam1')]).split('\n');
  const three = said([camera('cam1'), camera('cam2', { protocols: ['sftp'] }), camera('a-long-camera-name')]);
  expect(three.split('\n')).toHaveLength(one.length + 2);
  expect(three).toMatch(/^ {4}cam1 +user cam1 {2}password cam1-secret$/m);
  expect(three).toMatch(/^ {4}cam2 +user cam2 {2}password cam2-secret {2}\(by SFTP only\)$/m);
  expect(three).toMatch(/^ {4}a-long-camera-name {2}user a-long/m);
  const ready = { ready: true, web: '', ftp: 1, ftps: null, sftp: null, home: '', cameras: [] } as const;
  const shut = said([camera('cam1'), camera('cam2', { protocols: ['sftp'] })], {
    ready: { ...ready, cameras: [] },
  });
  expect(shut).toMatch(/^ {4}cam2 .*none of the doors it may use is open/m);
});
