import { expect, test } from 'vitest';
import type { Finding } from '../../facts/index.ts';
import { newCamera } from './camera-file.ts';
import type { Camera } from './core/camera.ts';
import { keepDoor } from './door-keeper.ts';
import { hardwareIn } from './neighbours.ts';

const camera: Camera = { ...newCamera('cam1'), password: 'right' };
const hardware = '3c:22:fb:01:02:03';

async function tries(
  change: Partial<Camera>,
  given: { user?: string; password?: string; address?: string; via?: 'ftp' | 'ftps' | 'sftp' } = {},
): Promise<{ in: boolean; why: string | null }> {
  const said: Finding[] = [];
  const keeper = keepDoor(
    { all: () => [newCamera('other'), { ...camera, ...change }] },
    () => ({}) as never,
    async (address) => (address === '192.168.7.20' ? hardware : null),
    (_camera, _address, finding) => said.push(finding),
  );
  const credentials = {
    user: 'cam1',
    password: 'right',
    address: '192.168.7.20',
    via: 'ftp',
    ...given,
  } as const;
  const admitted = await keeper.admit(credentials);
  return { in: admitted !== null && admitted !== 'told', why: said[0]?.code ?? null };
}

test('the right user and password come in, and nothing else does', async () => {
  expect(await tries({})).toEqual({ in: true, why: null });
  expect(await tries({}, { password: 'Right' })).toEqual({ in: false, why: null });
  expect(await tries({}, { user: 'cam2' })).toEqual({ in: false, why: null });
  expect(await tries({}, { user: 'other' })).toEqual({ in: false, why: null });
});

test('a password the station made may be typed with its gaps and with capitals', async () => {
  const password = 'kmwtrhbfxpzdctgn';
  const typed = (text: string) => tries({ password }, { password: text });
  expect(await typed(password)).toEqual({ in: true, why: null });
  expect(await typed('Kmwt rhbf xpzd ctgn')).toEqual({ in: true, why: null });
  expect(await typed('kmwt rhbf xpzd ctgm')).toEqual({ in: false, why: null });
  expect(await typed('kmwt rhbf xpzd')).toEqual({ in: false, why: null });
});

// Private ranges of RFC 1918, documentation range of RFC 3849.
test.each<[string[], string, boolean]>([
  [['192.168.7.20'], '192.168.7.20', true],
  [['192.168.7.21'], '192.168.7.20', false],
  [['192.168.7.0/24'], '192.168.7.20', true],
  [['192.168.8.0/24', '10.0.0.0/8'], '10.1.2.3', true],
  [['192.168.8.0/24'], '192.168.7.20', false],
  [['2001:db8::/32'], '2001:db8::7', true],
  [['2001:db8::/32'], '192.168.7.20', false],
  [['fe80::/10'], 'fe80::1%eth0', true],
  [[hardware], '192.168.7.20', true],
  [[hardware], '192.168.7.21', false],
  [['3c:22:fb:01:02:04'], '192.168.7.20', false],
  [['192.168.8.0/24', hardware], '192.168.7.20', true],
])('allowed from %j, coming from %s: %s', async (allow, address, isIn) => {
  expect(await tries({ allow }, { address })).toEqual({
    in: isIn,
    why: isIn ? null : 'line.not-allowed-from',
  });
});

test('who is refused although the log-in is right is told of by the keeper, so that the door does not tell it again', async () => {
  const keeper = keepDoor(
    { all: () => [{ ...camera, ended: true }] },
    () => ({}) as never,
    async () => null,
    () => {},
  );
  const credentials = { user: 'cam1', address: '192.168.7.20', via: 'ftp' } as const;
  expect(await keeper.admit({ ...credentials, password: 'right' })).toBe('told');
  expect(await keeper.admit({ ...credentials, password: 'wrong' })).toBe(null);
});

test('a door it may not use, and an ended camera, are told to the log and not to the client', async () => {
  expect(await tries({ protocols: ['ftps'] })).toEqual({ in: false, why: 'line.wrong-door' });
  expect(await tries({ protocols: ['ftps'] }, { via: 'ftps' })).toEqual({ in: true, why: null });
  expect(await tries({ ended: true })).toEqual({ in: false, why: 'line.camera-ended' });
  expect(await tries({ ended: true }, { password: 'wrong' })).toEqual({ in: false, why: null });
});

// As iproute2's `ip neigh` and the BSDs' and Windows' `arp` print it (from memory).
test.each([
  ['192.168.7.20 dev eth0 lladdr 3c:22:fb:01:02:03 REACHABLE', hardware],
  ['? (192.168.7.20) at 3c:22:fb:1:2:3 on en0 ifscope [ethernet]', hardware],
  ['  192.168.7.20          3c-22-fb-01-02-03     dynamic', hardware],
  ['192.168.7.20 dev eth0 FAILED', null],
  ['fe80::3e22:fbff:fe01:203 dev eth0 lladdr 3c:22:fb:01:02:03 STALE', hardware],
  ['', null],
])('in %j the neighbour is %s', (printed, found) => {
  expect(hardwareIn(printed)).toBe(found);
});
