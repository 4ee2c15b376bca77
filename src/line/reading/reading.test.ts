import { expect, test } from 'vitest';
import { neighboursOfArp, neighboursOfProc, unansweredOfProc } from './arp.ts';
import { holdersOfLsof, holdersOfNetstat, holdersOfSs } from './holders.ts';
import { interfacesOfIp, neighboursOfIp, wayOfIp } from './ip-json.ts';
import { macosDetails } from './macos.ts';
import { windowsDetails } from './windows.ts';

/** As iproute2 6.1 printed it in a network namespace, cut to what is read. */
const address = JSON.stringify([
  {
    ifname: 'lo',
    flags: ['LOOPBACK', 'UP'],
    link_type: 'loopback',
    address: '00:00:00:00:00:00',
    addr_info: [
      { family: 'inet', local: '127.0.0.1', prefixlen: 8, scope: 'host', valid_life_time: 4_294_967_295 },
    ],
  },
  {
    ifname: 'eth0',
    flags: ['UP', 'LOWER_UP'],
    link_type: 'ether',
    address: '02:FC:00:00:00:01',
    linkinfo: { info_kind: 'veth' },
    addr_info: [
      {
        family: 'inet',
        local: '10.77.0.101',
        prefixlen: 24,
        scope: 'global',
        dynamic: true,
        valid_life_time: 600,
      },
      { family: 'inet', local: '10.77.0.9', prefixlen: 24, scope: 'global', valid_life_time: 4_294_967_295 },
      { family: 'inet6', local: 'fe80::1', prefixlen: 64, scope: 'link', valid_life_time: 4_294_967_295 },
    ],
  },
  {
    ifname: 'wlan0',
    flags: ['UP', 'NO-CARRIER'],
    link_type: 'ether',
    address: '02:fc:00:00:00:02',
    addr_info: [],
  },
  { ifname: 'tun0', flags: ['UP'], link_type: 'none', linkinfo: { info_kind: 'tun' }, addr_info: [] },
  { ifname: 'br0', flags: ['UP'], link_type: 'ether', linkinfo: { info_kind: 'bridge' }, addr_info: [] },
]);
const routes = JSON.stringify([{ dst: 'default', gateway: '10.77.0.254', dev: 'eth0' }]);

test('interfaces of Linux: kind, cable, gateway, and which address was dealt out until when', () => {
  const links = { wlan0: { wireless: true, device: true, bitsPerSecond: null } };
  const read = interfacesOfIp(
    address,
    routes,
    (name) => (name === 'wlan0' ? links.wlan0 : null),
    () => true,
    1000,
  );
  expect(read.map(({ name, kind, up }) => [name, kind, up])).toEqual([
    ['lo', 'loopback', true],
    ['eth0', 'wired', true],
    ['wlan0', 'wireless', false],
    ['tun0', 'tunnel', true],
    ['br0', 'virtual', true],
  ]);
  const eth0 = read[1];
  expect(eth0).toMatchObject({ hardware: '02:fc:00:00:00:01', gateway: '10.77.0.254' });
  expect(eth0?.addresses.map(({ given, leaseEndsMs }) => [given, leaseEndsMs])).toEqual([
    ['dealt-out', 601_000],
    ['fixed', null],
    ['self', null],
  ]);
});

test('a route that DHCP brought says of an address without a lifetime that it was dealt out', () => {
  const byDhcp = JSON.stringify([{ dst: 'default', gateway: '10.77.0.254', dev: 'eth0', protocol: 'dhcp' }]);
  const read = interfacesOfIp(
    address,
    byDhcp,
    () => null,
    () => true,
    0,
  );
  expect(read[1]?.addresses[1]?.given).toBe('dealt-out');
});

test('what is no answer of the command gives nothing, and throws nothing', () => {
  for (const text of ['', '[]', '{', 'null', '[1,null,{"addr_info":3}]', '{"dst":1}']) {
    expect(neighboursOfIp(text)).toEqual([]);
    expect(wayOfIp(text)).toBeNull();
    expect(() =>
      interfacesOfIp(
        text,
        text,
        () => null,
        () => true,
        0,
      ),
    ).not.toThrow();
  }
});

test('neighbours and ways of Linux', () => {
  expect(
    neighboursOfIp(
      '[{"dst":"10.77.0.20","dev":"eth0","lladdr":"AA:bb:00:00:00:01","state":["STALE"]},{"dst":"10.77.0.21","dev":"eth0","state":["FAILED"]}]',
    ),
  ).toEqual([{ address: '10.77.0.20', hardware: 'aa:bb:00:00:00:01', interface: 'eth0' }]);
  expect(wayOfIp('[{"dst":"10.77.0.20","dev":"tun0","prefsrc":"10.8.0.2"}]')).toEqual({
    to: '10.77.0.20',
    interface: 'tun0',
    source: '10.8.0.2',
    gateway: null,
  });
});

test('who holds a port, by ss of Linux, lsof of macOS, netstat of Windows (the last two from memory)', () => {
  const ss = `LISTEN 0      5            0.0.0.0:21         0.0.0.0:*    users:(("python3",pid=812,fd=3))
LISTEN 0      128             [::]:2222          [::]:*
`;
  expect([...holdersOfSs(ss)]).toEqual([
    [21, 'python3 (812)'],
    [2222, ''],
  ]);
  expect([...holdersOfLsof('nginx 812 root 6u IPv4 0xabc 0t0 TCP *:8080 (LISTEN)')]).toEqual([
    [8080, 'nginx (812)'],
  ]);
  expect([...holdersOfNetstat('  TCP    0.0.0.0:21    0.0.0.0:0    LISTENING    1234\r\n')]).toEqual([
    [21, 'process 1234'],
  ]);
});

test('neighbours by arp of macOS and of Windows (from memory)', () => {
  expect(neighboursOfArp('? (192.168.7.1) at 0:1b:2c:3:4:5 on en0 ifscope [ethernet]')).toEqual([
    { address: '192.168.7.1', hardware: '00:1b:2c:03:04:05', interface: 'en0' },
  ]);
  expect(
    neighboursOfArp('Interface: 192.168.7.2 --- 0x5\r\n  192.168.7.1   00-1B-2C-03-04-05   dynamic\r\n'),
  ).toEqual([{ address: '192.168.7.1', hardware: '00:1b:2c:03:04:05', interface: '192.168.7.2' }]);
});

const plain = {
  name: 'en0',
  kind: 'unknown',
  up: true,
  hardware: '00:1b:2c:03:04:05',
  bitsPerSecond: null,
  gateway: null,
  addresses: [
    {
      address: '192.168.7.2',
      family: 'IPv4',
      prefixBits: 24,
      given: 'unknown',
      leaseEndsMs: null,
      served: true,
    },
  ],
} as const;

test('an interface of macOS (from memory)', () => {
  const words = {
    packet: 'op = BOOTREPLY\nyiaddr = 192.168.7.2\nsiaddr = 0.0.0.0\n',
    ports:
      'Hardware Port: Wi-Fi\nDevice: en0\nEthernet Address: 00:1b:2c:03:04:05\n\nHardware Port: Thunderbolt Bridge\nDevice: bridge0\n',
    route: '   route to: default\n    gateway: 192.168.7.1\n  interface: en0\n',
  };
  const read = macosDetails(plain, words);
  expect(read).toMatchObject({ kind: 'wireless', gateway: '192.168.7.1' });
  expect(read.addresses[0]?.given).toBe('dealt-out');
  expect(macosDetails(plain, { ...words, packet: '' }).addresses[0]?.given).toBe('fixed');
  expect(macosDetails({ ...plain, name: 'utun3' }, words).kind).toBe('tunnel');
});

test('interfaces of Windows (from memory)', () => {
  const [read] = windowsDetails([plain], {
    addresses: '{"InterfaceAlias":"en0","IPAddress":"192.168.7.2","PrefixOrigin":"Dhcp","LifeS":600}',
    adapters: '[{"Name":"en0","MediaType":"Native 802.11","Speed":866700000}]',
    routes: '{"InterfaceAlias":"en0","NextHop":"192.168.7.1"}',
    nowMs: 1000,
  });
  expect(read).toMatchObject({ kind: 'wireless', bitsPerSecond: 866_700_000, gateway: '192.168.7.1' });
  expect(read?.addresses[0]).toMatchObject({ given: 'dealt-out', leaseEndsMs: 601_000 });
});

test('neighbours by the file of Linux (as a kernel 6.18 wrote it)', () => {
  const text = `IP address       HW type     Flags       HW address            Mask     Device
10.77.0.20       0x1         0x2         02:FE:71:c8:86:6c     *        eth0
10.77.0.33       0x1         0x0         00:00:00:00:00:00     *        eth0
`;
  expect(neighboursOfProc(text)).toEqual([
    { address: '10.77.0.20', hardware: '02:fe:71:c8:86:6c', interface: 'eth0' },
  ]);
  expect(unansweredOfProc(text)).toEqual(['10.77.0.33']);
});
