import type { LineCheck } from '../../contract/index.ts';

/** A line on which everything is well. Invented; addresses of RFC 1918. */
export const sampleLine: LineCheck = {
  at: '2026-10-01T08:04:11.000Z',
  open: true,
  interfaces: [
    {
      name: 'wlan0',
      kind: 'wireless',
      up: true,
      hardware: '02:00:5e:00:53:01',
      bitsPerSecond: null,
      gateway: '192.168.7.1',
      addresses: [
        {
          address: '192.168.7.20',
          family: 'IPv4',
          network: '192.168.7.0/24',
          use: 'private',
          given: 'dealt-out',
          leaseEnds: '2026-10-01T20:04:11.000Z',
          served: true,
        },
      ],
    },
  ],
  doors: [
    { name: 'ftp', port: 2121, wanted: null, holder: null, firewall: 'open' },
    { name: 'ftps', port: 2990, wanted: null, holder: null, firewall: 'open' },
    { name: 'sftp', port: 2222, wanted: null, holder: null, firewall: 'open' },
  ],
  passive: { from: 50_000, to: 50_099, taken: [], firewall: 'open' },
  firewall: { kind: 'nftables', read: true, commands: [] },
  links: null,
  mayEnter: ['192.168.7.20'],
  mdns: null,
  disk: { freeBytes: 5e11, floorBytes: 1e9, writeBytesPerSecond: 4.8e8 },
  cameras: [
    {
      name: 'cam1',
      enter: '192.168.7.20',
      entered: '192.168.7.20',
      seenAt: '192.168.7.31',
      lastSeen: '2026-10-01T08:02:00.000Z',
      bytesPerSecond: 4e6,
      speed: null,
    },
  ],
  findings: [],
};
