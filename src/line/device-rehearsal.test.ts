import { expect, test } from 'vitest';
import { type DeviceAround, type DeviceTry, deviceFindings } from './device-rehearsal.ts';

const address = (text: string) => ({
  ...({
    address: text,
    family: 'IPv4',
    prefixBits: 24,
    given: 'fixed',
    leaseEndsMs: null,
    served: true,
  } as const),
});
const camera = (change: Partial<DeviceAround['cameras'][number]> = {}) => ({
  ...{ name: 'cam1', ended: false, bytesPerSecond: null },
  login: { local: '192.168.7.20', address: '192.168.7.31', atMs: 0 },
  ...change,
});
/** A phone beside the camera: 2 MB in half a second. */
const phone: DeviceTry = { from: '192.168.7.44', reached: '192.168.7.20', bytes: 2_000_000, ms: 500 };
const codes = (
  cameras: DeviceAround['cameras'],
  device: Partial<DeviceTry> = {},
  walls: DeviceAround['walls'] = 'open',
) =>
  deviceFindings(
    { ...phone, ...device },
    {
      interfaces: [{ addresses: [address('192.168.7.20')] }, { addresses: [address('10.0.0.5')] }],
      cameras,
      walls,
    },
  ).map(({ code }) => code.slice('rehearsal.'.length));

test.each<[string, Parameters<typeof codes>, string[]]>([
  ['beside the camera', [[camera()]], ['device-beside']],
  ['through ::ffff: it is the same place', [[camera()], { from: '::ffff:192.168.7.44' }], ['device-beside']],
  [
    'in the station’s other network',
    [[camera()], { from: '10.0.0.9', reached: '10.0.0.5' }],
    ['device-elsewhere', 'device-other-address'],
  ],
  [
    'at the address that is not entered on the camera',
    [[camera()], { reached: '10.0.0.5' }],
    ['device-beside', 'device-other-address'],
  ],
  ['a camera that never came says nothing', [[camera({ login: null })]], []],
  ['nor does one that was ended', [[camera({ ended: true })]], []],
  [
    'twice as fast as a slow camera',
    [[camera({ bytesPerSecond: 1_900_000 })]],
    ['device-beside', 'device-faster'],
  ],
  ['not quite twice', [[camera({ bytesPerSecond: 2_000_000 })]], ['device-beside']],
  [
    'faster than a camera that is fast enough',
    [[camera({ bytesPerSecond: 3_000_000 })], { ms: 100 }],
    ['device-beside'],
  ],
  [
    'slower than half of the camera',
    [[camera({ bytesPerSecond: 8_100_000 })]],
    ['device-beside', 'device-slower'],
  ],
  ['on the station’s own computer', [[], { from: '192.168.7.20' }], ['own-computer']],
])('a device %s', (_name, wish, expected) => {
  expect(codes(...wish)).toEqual(['device-through', ...expected, 'device-doors-open']);
});

test('what the test cannot prove is said last, after what the firewall was seen to do', () => {
  expect(codes([], {}, 'shut').at(-1)).toBe('device-doors-shut');
  expect(codes([], {}, 'unknown').at(-1)).toBe('device-doors-unknown');
});
