import { expect, test } from 'vitest';
import { sentence } from '../words/index.ts';
import { diagnose } from './diagnose.ts';
import type { LineFacts } from './facts.ts';
import { causeCodes } from './shapes.ts';
import { door, line, nowMs, sampleCamera, sampleFacts, wired } from './testing/sample-facts.ts';

type Row = readonly [
  what: string,
  facts: Partial<LineFacts>,
  code: (typeof causeCodes)[number],
  weight: string,
  sure: string,
  cure: string,
];

const stranger = { camera: null };
const fresh = { cameras: [sampleCamera({ login: null, reach: null })] };
const tls = (why: string): Partial<LineFacts> => ({
  lines: [line('line.tls-failed', { why, address: '192.168.7.20' }, stranger)],
});
const tunnel = { ...wired('tun0', '10.8.0.2'), kind: 'tunnel' as const };

/** What is seen and what it means; common practice, no source, but where a cause names one. */
const table: readonly Row[] = [
  [
    'the address is gone',
    { interfaces: [wired('eth0', '192.168.7.9')] },
    'line-check.address-changed',
    'shut',
    'certain',
    'enter-address',
  ],
  [
    'a lease',
    { interfaces: [wired('eth0', '192.168.7.2', { given: 'dealt-out', leaseEndsMs: nowMs + 1 })] },
    'line-check.address-dealt-out',
    'note',
    'certain',
    'reserve',
  ],
  [
    'loopback alone',
    { interfaces: [], cameras: [] },
    'line-check.no-network',
    'shut',
    'certain',
    'join-network',
  ],
  [
    'a public address alone',
    { interfaces: [wired('eth0', '203.0.113.5', { served: false })], cameras: [] },
    'line-check.only-public',
    'shut',
    'certain',
    'bind',
  ],
  [
    '169.254/16 alone',
    { interfaces: [wired('eth0', '169.254.3.4', { given: 'self' })], cameras: [] },
    'line-check.no-dhcp',
    'weak',
    'likely',
    'start-dhcp',
  ],
  [
    'FTPS is taken',
    { doors: [door('ftps', null, { wanted: 2990, holder: 'other (7)' })], cameras: [sampleCamera()] },
    'line-check.port-taken',
    'shut',
    'certain',
    'end-program',
  ],
  [
    '21 is taken',
    { doors: [door('ftp', 2121, { wanted: 21, holder: 'other (7)' })] },
    'line-check.other-port',
    'note',
    'certain',
    'enter-port',
  ],
  [
    'a door with another trouble',
    { doors: [door('sftp', null, { trouble: { code: 'station.no-certificate', args: {} } })] },
    'line-check.door-shut',
    'shut',
    'certain',
    'look-at-door',
  ],
  [
    'a rule against port 21',
    { firewall: { kind: 'ufw', read: true, ports: [{ port: 21, state: 'shut', chain: 'ip filter INPUT' }] } },
    'line-check.firewall-shut',
    'shut',
    'certain',
    'open-firewall',
  ],
  [
    'a rule against the port for links',
    {
      linkPort: 8461,
      firewall: {
        kind: 'nftables',
        read: true,
        ports: [{ port: 8461, state: 'shut', chain: 'inet filter input' }],
      },
    },
    'line-check.links-shut',
    'note',
    'certain',
    'open-firewall',
  ],
  [
    'rules that nobody may read',
    { firewall: { kind: 'unknown', read: false, ports: [{ port: 21, state: 'unknown', chain: null }] } },
    'line-check.firewall-unread',
    'note',
    'possible',
    'read-firewall',
  ],
  [
    'a rule against the data ports',
    {
      firewall: {
        kind: 'nftables',
        read: true,
        ports: [{ port: 50_000, state: 'shut', chain: 'inet filter input' }],
      },
    },
    'line-check.passive-shut',
    'shut',
    'certain',
    'open-firewall',
  ],
  [
    'no data comes though all is open here',
    {
      firewall: { kind: 'nftables', read: true, ports: [{ port: 50_000, state: 'open', chain: null }] },
      lines: [line('line.no-data-connection')],
    },
    'line-check.passive-shut-between',
    'shut',
    'likely',
    'open-between',
  ],
  [
    'the range is used up',
    { passive: { from: 50_000, to: 50_001, taken: [50_000, 50_001] } },
    'line-check.passive-taken',
    'shut',
    'certain',
    'wider-range',
  ],
  [
    'no data comes from another network',
    { lines: [line('line.no-data-connection', {}, { address: '10.9.9.9' })] },
    'line-check.address-translated',
    'shut',
    'likely',
    'same-network',
  ],
  [
    'no data comes from the router’s face',
    {
      interfaces: [{ ...wired('eth0', '192.168.7.2'), gateway: '192.168.7.1' }],
      lines: [line('line.no-data-connection', {}, { address: '192.168.7.1' })],
    },
    'line-check.address-translated',
    'shut',
    'likely',
    'same-network',
  ],
  [
    'nobody takes the dial',
    { lines: [line('line.cannot-dial')] },
    'line-check.active-behind-wall',
    'shut',
    'likely',
    'passive-mode',
  ],
  ['nobody came', { ...fresh, lines: [] }, 'line-check.nothing-came', 'note', 'certain', 'check-camera'],
  [
    'only the router is heard',
    {
      interfaces: [{ ...wired('eth0', '192.168.7.2'), gateway: '192.168.7.1' }],
      cameras: [sampleCamera({ reach: 'no-host' })],
      lines: [],
      neighbours: [{ address: '192.168.7.1', hardware: '02:00:5e:00:53:ff', interface: 'eth0' }],
    },
    'line-check.kept-apart',
    'note',
    'possible',
    'let-devices-meet',
  ],
  [
    'it is not where it was',
    { cameras: [sampleCamera({ reach: 'no-host' })] },
    'line-check.not-there',
    'note',
    'likely',
    'wake-camera',
  ],
  [
    'two networks and nobody knows',
    {
      ...fresh,
      interfaces: [wired('eth0', '192.168.7.2'), wired('eth1', '10.1.1.2')],
      neighbours: [],
      lines: [],
    },
    'line-check.other-network',
    'note',
    'possible',
    'enter-address',
  ],
  [
    'two networks and it is in the other',
    {
      cameras: [sampleCamera({ login: null, allow: ['10.1.1.20'] })],
      interfaces: [wired('eth0', '192.168.7.2'), wired('eth1', '10.1.1.2')],
      lines: [],
    },
    'line-check.other-network',
    'weak',
    'likely',
    'enter-address',
  ],
  [
    'answers go into a tunnel',
    {
      interfaces: [wired('eth0', '192.168.7.2'), tunnel],
      ways: [{ to: '192.168.7.20', interface: 'tun0', source: null, gateway: null }],
    },
    'line-check.tunnel-took-route',
    'shut',
    'certain',
    'tunnel-off',
  ],
  [
    'two answer for one',
    { doubles: [{ address: '192.168.7.20', hardware: ['a', 'b'], otherMs: 0, withinMs: 600_000 }] },
    'line-check.address-twice',
    'weak',
    'certain',
    'one-each',
  ],
  [
    'a user that nobody has',
    { lines: [line('line.wrong-login', { user: 'on' }, stranger)] },
    'line-check.wrong-user',
    'shut',
    'certain',
    'enter-user',
  ],
  [
    'a known user',
    { lines: [line('line.wrong-login', { user: 'one-user' }, stranger)] },
    'line-check.wrong-password',
    'shut',
    'certain',
    'enter-password',
  ],
  [
    'not from there',
    {
      lines: [
        line(
          'line.not-allowed-from',
          { camera: 'Cam-A', address: '192.168.7.44' },
          { camera: null, address: '192.168.7.44' },
        ),
      ],
    },
    'line-check.address-not-allowed',
    'shut',
    'certain',
    'allow-address',
  ],
  [
    'not by that way',
    { lines: [line('line.wrong-door', { camera: 'Cam-A', door: 'FTP' }, stranger)] },
    'line-check.way-not-allowed',
    'shut',
    'certain',
    'allow-way',
  ],
  [
    'ended here',
    { lines: [line('line.camera-ended', { camera: 'Cam-A' }, stranger)] },
    'line-check.camera-ended',
    'shut',
    'certain',
    'let-in-again',
  ],
  [
    'many tries without a user',
    { lines: [line('line.too-many-logins', { user: '' }, stranger)] },
    'line-check.too-many-tries',
    'shut',
    'likely',
    'wait-then-enter',
  ],
  [
    'RFC 8446 section 6.2, protocol_version',
    tls('old-version'),
    'line-check.tls-version',
    'shut',
    'certain',
    'plain-or-sftp',
  ],
  [
    'RFC 8446 section 6.2, unknown_ca',
    tls('unknown-authority'),
    'line-check.tls-untrusted',
    'shut',
    'certain',
    'import-root',
  ],
  [
    'RFC 8446 section 6.2, bad_certificate',
    tls('bad-certificate'),
    'line-check.tls-clock',
    'shut',
    'likely',
    'set-clock',
  ],
  ['bytes that are no TLS', tls('not-tls'), 'line-check.tls-not-spoken', 'shut', 'certain', 'set-implicit'],
  ['nobody said why', tls('left'), 'line-check.tls-failed', 'shut', 'possible', 'import-root'],
  ['something else', tls('other'), 'line-check.tls-failed', 'shut', 'possible', 'import-root'],
  [
    'files in clear',
    { lines: [line('line.data-not-secured')] },
    'line-check.tls-data',
    'shut',
    'certain',
    'protect-data',
  ],
  [
    'a folder that is not there',
    { lines: [line('line.refused-command', { verb: 'CWD', name: '/DCIM', why: 'no-folder', reply: '550' })] },
    'line-check.folder-refused',
    'shut',
    'certain',
    'enter-folder',
  ],
  [
    'no room',
    { disk: { freeBytes: 1e9, floorBytes: 1e9, writeBytesPerSecond: null } },
    'line-check.disk-full',
    'shut',
    'certain',
    'make-room',
  ],
  [
    'a slow card',
    { disk: { freeBytes: 5e11, floorBytes: 1e9, writeBytesPerSecond: 19e6 } },
    'line-check.disk-slow',
    'weak',
    'likely',
    'faster-disk',
  ],
  [
    'an upload broke off',
    { lines: [line('line.upload-broken-off', { name: 'A.RAW', why: 'reset', bytes: 5 })] },
    'line-check.weak-line',
    'weak',
    'likely',
    'come-closer',
  ],
  [
    'packets overtake others',
    { packets: { received: 1000, outOfOrder: 10 } },
    'line-check.weak-line',
    'weak',
    'likely',
    'come-closer',
  ],
  [
    'it fell silent and is gone',
    {
      cameras: [sampleCamera({ reach: 'no-host' })],
      lines: [line('line.upload-broken-off', { name: 'A.RAW', why: 'stalled', bytes: 5 })],
    },
    'line-check.goes-to-sleep',
    'weak',
    'likely',
    'stay-awake',
  ],
];

test.each(table)('%s: found, with what mends it', (_what, facts, code, weight, sure, cure) => {
  const found = diagnose(sampleFacts(facts)).find((finding) => finding.code === code);
  expect(found).toMatchObject({ code, weight, sure });
  expect(found?.cures[0]?.finding.code).toBe(`line-cure.${cure}`);
  for (const finding of [
    found?.cause,
    ...(found?.evidence ?? []),
    ...(found?.cures ?? []).map((each) => each.finding),
  ]) {
    expect(finding && sentence(finding)).toMatch(/^[A-Z0-9].*\.$/s);
    expect(finding && sentence(finding)).not.toMatch(/^line-|undefined|NaN/);
  }
});

test('every cause has its row', () => {
  expect([...new Set(table.map(([, , code]) => code))].sort()).toEqual([...causeCodes].sort());
});

test('where all is well nothing is found', () => {
  expect(diagnose(sampleFacts())).toEqual([]);
});

test('what a camera has done right since settles what went wrong before', () => {
  const wrong = line('line.wrong-login', { user: 'one-user' }, { camera: null, agoMs: 90_000 });
  const data = line('line.no-data-connection', {}, { agoMs: 90_000 });
  expect(diagnose(sampleFacts({ lines: [wrong, data] }))).toHaveLength(2);
  const right = [
    line('line.logged-in', { address: '192.168.7.20' }),
    line('line.upload-kept', { name: 'A', bytes: 1 }),
  ];
  expect(diagnose(sampleFacts({ lines: [wrong, data, ...right] }))).toEqual([]);
  // A log-in alone does not say that data comes.
  expect(diagnose(sampleFacts({ lines: [wrong, data, ...right.slice(0, 1)] }))).toHaveLength(1);
});

test('what happened six hours ago is another day’s', () => {
  const at = (agoMs: number): number =>
    diagnose(sampleFacts({ lines: [line('line.cannot-dial', {}, { agoMs })] })).filter(
      ({ code }) => code === 'line-check.active-behind-wall',
    ).length;
  expect([at(6 * 3_600_000), at(6 * 3_600_000 + 1)]).toEqual([1, 0]);
});

test('bounds are met from both sides', () => {
  const codes = (facts: Partial<LineFacts>): string[] => diagnose(sampleFacts(facts)).map(({ code }) => code);
  expect(codes({ packets: { received: 1000, outOfOrder: 9 } })).toEqual([]);
  expect(codes({ packets: { received: 199, outOfOrder: 100 } })).toEqual([]);
  expect(codes({ disk: { freeBytes: 1e9 + 1, floorBytes: 1e9, writeBytesPerSecond: 20e6 } })).toEqual([]);
  const taken = (count: number): number[] => Array.from({ length: count }, (_, index) => 50_000 + index);
  expect(codes({ passive: { from: 50_000, to: 50_099, taken: taken(92) } })).toEqual([]);
  expect(codes({ passive: { from: 50_000, to: 50_099, taken: taken(93) } })).toEqual([
    'line-check.passive-taken',
  ]);
});

test('a door that no camera may come in by may be shut', () => {
  const firewall = {
    kind: 'nftables',
    read: true,
    ports: [{ port: 990, state: 'shut', chain: 'inet filter input' }],
  } as const;
  expect(diagnose(sampleFacts({ firewall, cameras: [sampleCamera({ protocols: ['sftp'] })] }))).toEqual([]);
});

test('nothing of a password that was tried is told, and the gravest stands first', () => {
  const findings = diagnose(
    sampleFacts({
      interfaces: [wired('eth0', '192.168.7.2', { given: 'dealt-out' })],
      lines: [line('line.wrong-login', { user: 'one-user', password: 'secret' }, stranger)],
      packets: { received: 1000, outOfOrder: 90 },
    }),
  );
  expect(findings.map(({ weight }) => weight)).toEqual(['shut', 'weak', 'note']);
  expect(JSON.stringify(findings)).not.toContain('secret');
});
