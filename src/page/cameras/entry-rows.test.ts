import { expect, test } from 'vitest';
import type { CameraEntry, Station } from '../../contract/index.ts';
import { sampleStation } from '../testing/sample-frame.ts';
import { cameraRows, hostKeyRows, isInClear, stationRows } from './entry-rows.ts';

const [sample] = sampleStation().cameras;
const camera = (change: Partial<CameraEntry>): CameraEntry => {
  if (sample === undefined) throw new Error('expected the sample station to have a camera');
  return { ...sample, ...change };
};
/** All doors open, with a certificate and two host keys. */
const open: Station = sampleStation({
  doors: [
    { name: 'web', port: 8460, trouble: null },
    { name: 'ftp', port: 2121, trouble: null },
    { name: 'ftps', port: 2990, trouble: null },
    {
      name: 'sftp',
      port: 2222,
      trouble: null,
      hostKeys: [
        { kind: 'ed25519', fingerprint: 'SHA256:one' },
        { kind: 'ecdsa', fingerprint: 'SHA256:two' },
      ],
    },
  ],
  certificate: { name: 'Setside', fingerprint: 'AA:BB', notAfter: '2036-01-01T00:00:00.000Z' },
});
const labels = (rows: readonly (readonly [string, string])[]): string[] => rows.map(([label]) => label);

test('a camera is shown the doors it may use and no other', () => {
  expect(labels(cameraRows(camera({}), open))).toEqual([
    'FTP',
    'FTPS, explicit',
    'FTPS, implicit',
    'SFTP',
    'User',
    'Password',
  ]);
  expect(cameraRows(camera({ protocols: ['sftp'] }), open)).toEqual([
    ['SFTP', 'port 2222'],
    ['User', 'cam1'],
    ['Password', 'maple-river-42'],
  ]);
  expect(labels(cameraRows(camera({ protocols: ['ftps'] }), open)).slice(0, 2)).toEqual([
    'FTPS, explicit',
    'FTPS, implicit',
  ]);
});

test('where the station asks for encryption, plain FTP is offered to nobody', () => {
  expect(labels(cameraRows(camera({}), { ...open, encryptedOnly: true }))).not.toContain('FTP');
});

test('a camera that only comes by a watched folder has its folder and no log-in', () => {
  expect(cameraRows(camera({ protocols: [], watched: ['/media/card'] }), open)).toEqual([
    ['Watched folder', '/media/card'],
  ]);
  expect(labels(cameraRows(camera({ protocols: [], watched: [] }), open))).toEqual(['Comes in by']);
  expect(cameraRows(camera({ watched: ['/media/card'] }), open).at(-1)).toEqual([
    'Watched folder',
    '/media/card',
  ]);
});

test('a camera all of whose doors are shut is told so', () => {
  const shut = sampleStation({ doors: [{ name: 'sftp', port: null, trouble: null }] });
  expect(cameraRows(camera({ protocols: ['sftp'] }), shut)[0]).toEqual([
    'Comes in by',
    'none of the doors it may use is open',
  ]);
});

test('every host key is shown by its kind, where some camera may come by SFTP', () => {
  expect(hostKeyRows(open)).toEqual([
    ['SFTP host key, ED25519', 'SHA256:one'],
    ['SFTP host key, ECDSA', 'SHA256:two'],
  ]);
  const without = { ...open, cameras: [camera({ protocols: ['ftp'] })] };
  expect(hostKeyRows(without)).toEqual([]);
  expect(labels(stationRows(without))).toEqual(['Server address', 'Folder', 'Passive mode']);
  expect(stationRows(without).at(-1)?.[1]).toBe('on (data ports 50000-50099)');
});

test('a password goes in clear where a camera may come by plain FTP', () => {
  expect(isInClear(open)).toBe(true);
  expect(isInClear({ ...open, encryptedOnly: true })).toBe(false);
  expect(isInClear({ ...open, cameras: [camera({ protocols: ['ftps', 'sftp'] })] })).toBe(false);
  expect(isInClear({ ...open, cameras: [camera({ ended: true })] })).toBe(false);
});

test('where every camera would be shut out no address is shown, but what to do', () => {
  const trouble = { code: 'line.no-private-address', args: { address: '192.0.2.2' } };
  const shutOut = sampleStation({ doors: [{ name: 'ftp', port: 2121, trouble }] });
  const [, value] = stationRows(shutOut)[0] ?? [];
  expect(value).toMatch(/^Cameras are shut out.*--bind 192\.0\.2\.2/);
});
