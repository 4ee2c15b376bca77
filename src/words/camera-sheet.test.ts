import { expect, test } from 'vitest';
import { cameraAddresses } from './camera-addresses.ts';
import { cameraForms, passwordGroups } from './camera-sheet.ts';
import { sheetLabels } from './camera-sheet-labels.ts';
import type { SheetAddress, SheetCamera, SheetStation } from './camera-sheet-shapes.ts';

const station: SheetStation = {
  addresses: [{ address: '192.168.7.20', family: 'IPv4', private: true, beside: false }],
  doors: [
    { name: 'ftp', port: 21, trouble: null },
    { name: 'ftps', port: 990, trouble: null },
    { name: 'sftp', port: 2222, trouble: null },
  ],
  passive: { from: 50_000, to: 50_099 },
  encryptedOnly: false,
  certificate: { name: 'Setside', fingerprint: 'AA:BB' },
};
const camera: SheetCamera = {
  name: 'cam1',
  user: 'cam1',
  password: 'kmwtrhbfxpzdctgn',
  protocols: ['ftp', 'ftps', 'sftp'],
  ended: false,
};
const ways = (change: Partial<SheetStation>, who: Partial<SheetCamera> = {}): string[] =>
  cameraForms({ ...camera, ...who }, { ...station, ...change }).map(({ way }) => way);

test('a camera has a form for each way that is open to it, and for no other', () => {
  expect(ways({})).toEqual(['ftp', 'ftps', 'sftp']);
  expect(ways({}, { protocols: ['sftp'] })).toEqual(['sftp']);
  expect(ways({ encryptedOnly: true })).toEqual(['ftps', 'sftp']);
  expect(ways({ certificate: null })).toEqual(['ftp', 'sftp']);
  expect(ways({ doors: [] })).toEqual([]);
  expect(ways({}, { ended: true })).toEqual([]);
});

test('FTPS without the port for FTP is implicit at its own', () => {
  const doors = [{ name: 'ftps', port: 990, trouble: null }] as const;
  const [form] = cameraForms(camera, { ...station, doors });
  expect(form?.rows.slice(0, 3).map(({ groups }) => groups[0])).toEqual([
    'FTPS, implicit',
    '192.168.7.20',
    '990',
  ]);
});

test('in two networks the address of the one the camera is in is entered, and the other is named', () => {
  const two = [
    ...station.addresses,
    { address: '10.0.4.9', family: 'IPv4', private: true, beside: false },
  ] as const;
  const address = (enter: string | null): unknown => {
    const [form] = cameraForms(camera, { ...station, addresses: two }, { enter });
    const row = form?.rows.find(({ term }) => term === sheetLabels.address);
    return [row?.groups, row?.note?.split(',')[0]];
  };
  expect(address(null)).toEqual([['192.168.7.20'], 'or 10.0.4.9']);
  expect(address('10.0.4.9')).toEqual([['10.0.4.9'], 'or 192.168.7.20']);
  // An address that cameras are not given, such as one of a tunnel, is not put on the sheet by it.
  expect(address('172.16.0.1')).toEqual([['192.168.7.20'], 'or 10.0.4.9']);
});

test('a password of ours is read four letters at a time; one that somebody chose stays as it is', () => {
  expect(passwordGroups('kmwtrhbfxpzdctgn')).toEqual(['kmwt', 'rhbf', 'xpzd', 'ctgn']);
  // Of the first days: 13 letters and figures.
  expect(passwordGroups('abc2defghj3kl')).toEqual(['abc2', 'defg', 'hj3k', 'l']);
  for (const theirs of ['maple-river-42', 'Short1', 'KmwtRhbfXpzdCtgn'])
    expect(passwordGroups(theirs)).toEqual([theirs]);
});

test('where every camera would be shut out no address is given, and why is said', () => {
  const trouble = { code: 'line.no-private-address', args: { address: '203.0.113.7' } };
  const shut = {
    ...station,
    addresses: [{ address: '203.0.113.7', family: 'IPv4' as const, private: false, beside: false }],
    doors: [{ name: 'ftp' as const, port: 21, trouble }],
  };
  expect(cameraAddresses(shut)).toEqual([]);
  expect(cameraForms(camera, shut)[0]?.notes[0]).toContain('Cameras are shut out');
});

test('an address that no camera is given is left out, and the station’s name stands beside the others', () => {
  const four = ['172.17.0.1', '192.168.7.20', '10.0.4.9'].map((address) => ({
    ...{ address, family: 'IPv4' as const, private: true, beside: false },
  }));
  const note = (wayIn: Parameters<typeof cameraForms>[2]): unknown => {
    const [form] = cameraForms(camera, { ...station, addresses: four }, wayIn);
    const row = form?.rows.find(({ term }) => term === sheetLabels.address);
    return [row?.groups[0], row?.note];
  };
  const mayEnter = ['192.168.7.20', '10.0.4.9'];
  expect(note({ mayEnter, mdns: 'studio.local' })).toEqual([
    '192.168.7.20',
    `${sheetLabels.or('10.0.4.9')}; ${sheetLabels.orName('studio.local')}`,
  ]);
  expect(note({ mayEnter: ['192.168.7.20'] })).toEqual(['192.168.7.20', null]);
  // A camera that is known to be in such a network after all.
  expect(note({ mayEnter: ['192.168.7.20'], enter: '172.17.0.1' })).toEqual([
    '172.17.0.1',
    sheetLabels.or('192.168.7.20'),
  ]);
  // An answer that fits no more: better all than none.
  expect(note({ mayEnter: ['192.168.9.9'] })).toEqual([
    '172.17.0.1',
    sheetLabels.or('192.168.7.20, 10.0.4.9'),
  ]);
});

test('an address beside the networks around is left out, unless it is all there is or the camera is there', () => {
  const bridge = { address: '172.17.0.1', family: 'IPv4', private: true, beside: true } as const;
  const addressOf = (addresses: readonly SheetAddress[], enter: string | null): unknown =>
    cameraForms(camera, { ...station, addresses }, { enter })[0]?.rows.find(
      ({ term }) => term === sheetLabels.address,
    )?.groups;
  expect(cameraAddresses({ ...station, addresses: [bridge, ...station.addresses] })).toEqual([
    '192.168.7.20',
  ]);
  expect(cameraAddresses({ ...station, addresses: [bridge] })).toEqual(['172.17.0.1']);
  expect(addressOf([bridge, ...station.addresses], null)).toEqual(['192.168.7.20']);
  expect(addressOf([bridge, ...station.addresses], '172.17.0.1')).toEqual(['172.17.0.1']);
});
