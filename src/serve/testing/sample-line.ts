import type { LineCheck } from '../../contract/index.ts';

/** A line with one thing wrong; addresses of RFC 5737, which nobody has. */
export const sampleLineCheck: LineCheck = {
  at: '2026-10-01T08:04:11.000Z',
  open: false,
  interfaces: [
    {
      name: 'eth0',
      kind: 'wired',
      up: true,
      hardware: '02:00:5e:00:53:01',
      bitsPerSecond: 1e9,
      gateway: '192.0.2.254',
      addresses: [
        {
          address: '192.0.2.1',
          family: 'IPv4',
          network: '192.0.2.0/24',
          use: 'private',
          given: 'dealt-out',
          leaseEnds: '2026-10-01T20:04:11.000Z',
          served: true,
        },
      ],
    },
  ],
  doors: [{ name: 'ftp', port: 21, wanted: null, holder: null, firewall: 'open' }],
  passive: { from: 50_000, to: 50_099, taken: [], firewall: 'shut' },
  firewall: { kind: 'nftables', read: true, commands: [] },
  links: null,
  mayEnter: ['192.0.2.1'],
  mdns: null,
  disk: { freeBytes: 5e11, floorBytes: 1e9, writeBytesPerSecond: 5e8 },
  cameras: [],
  findings: [
    {
      code: 'line-check.passive-shut',
      weight: 'shut',
      sure: 'certain',
      camera: null,
      cause: { code: 'line-check.passive-shut', args: { ports: '50000-50099' } },
      evidence: [],
      cures: [],
    },
  ],
};
