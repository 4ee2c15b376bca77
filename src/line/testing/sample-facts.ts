import type { AddressFacts, CameraFacts, DoorFacts, InterfaceFacts, LineFact, LineFacts } from '../facts.ts';

/** 2026-10-01T08:00:00Z. */
export const nowMs = 1_790_841_600_000;

/** A station where all is well: one cable, three doors, no firewall, one camera that came a minute ago. */
export function sampleFacts(differing: Partial<LineFacts> = {}): LineFacts {
  return {
    nowMs,
    startedMs: nowMs - 3_600_000,
    system: 'linux',
    interfaces: [wired('eth0', '192.168.7.2')],
    doors: [door('ftp', 21), door('ftps', 990), door('sftp', 2222)],
    passive: { from: 50_000, to: 50_099, taken: [] },
    linkPort: null,
    firewall: { kind: 'none', read: true, ports: [] },
    passiveShutMs: null,
    ways: [],
    neighbours: [{ address: '192.168.7.20', hardware: '02:00:5e:00:53:20', interface: 'eth0' }],
    doubles: [],
    cameras: [sampleCamera()],
    lines: [line('line.logged-in', { user: 'one', address: '192.168.7.20', local: '192.168.7.2' })],
    disk: { freeBytes: 5e11, floorBytes: 1e9, writeBytesPerSecond: 4e8 },
    packets: { received: 5000, outOfOrder: 0 },
    program: '/usr/bin/node',
    certificate: { notBeforeMs: nowMs - 86_400_000, notAfterMs: nowMs + 30 * 86_400_000 },
    ...differing,
  };
}

export function sampleCamera(differing: Partial<CameraFacts> = {}): CameraFacts {
  return {
    name: 'Cam-A',
    user: 'one-user',
    allow: [],
    protocols: ['ftp', 'ftps', 'sftp'],
    ended: false,
    connected: false,
    login: { local: '192.168.7.2', address: '192.168.7.20', atMs: nowMs - 60_000 },
    reach: 'answers',
    bytesPerSecond: 8e6,
    ...differing,
  };
}

export function wired(name: string, address: string, held: Partial<AddressFacts> = {}): InterfaceFacts {
  return {
    name,
    kind: 'wired',
    up: true,
    hardware: '02:00:5e:00:53:01',
    bitsPerSecond: 1e9,
    gateway: null,
    addresses: [
      { address, family: 'IPv4', prefixBits: 24, given: 'fixed', leaseEndsMs: null, served: true, ...held },
    ],
  };
}

export function door(name: DoorFacts['name'], port: number | null, more: Partial<DoorFacts> = {}): DoorFacts {
  return { name, port, wanted: null, holder: null, trouble: null, ...more };
}

/** Something that happened `agoMs` ago; the camera's unless it says otherwise. */
export function line(
  code: string,
  args: LineFact['finding']['args'] = {},
  {
    camera = 'Cam-A',
    agoMs = 60_000,
    address = '192.168.7.20',
  }: { camera?: string | null; agoMs?: number; address?: string } = {},
): LineFact {
  return { atMs: nowMs - agoMs, camera, address, finding: { code, args } };
}
