import { z } from 'zod';
import { lineSpeed } from './line-speed.ts';
import { finding, instant } from './primitives.ts';

const port = z.number().int().min(0).max(65535);

export const lineInterface = z
  .object({
    name: z.string().describe('As the system calls it'),
    kind: z.enum(['wired', 'wireless', 'tunnel', 'virtual', 'loopback', 'unknown']),
    up: z.boolean(),
    hardware: z.string().nullable().describe('Hardware address, lower case with colons'),
    bitsPerSecond: z.number().nullable().describe('What the cable or radio agreed on; null where unknown'),
    gateway: z.string().nullable().describe('The router that leads out by this interface'),
    addresses: z.array(
      z.object({
        address: z.string(),
        family: z.enum(['IPv4', 'IPv6']),
        network: z.string().describe('Address and length of its network: 192.168.7.0/24'),
        use: z
          .enum(['private', 'link-local', 'shared', 'loopback', 'public'])
          .describe('RFC 1918 and 4193; 3927 and 4291; 6598; this computer itself; anything else'),
        given: z
          .enum(['dealt-out', 'fixed', 'self', 'unknown'])
          .describe('By DHCP; entered by a person; by the computer itself (link-local, loopback)'),
        leaseEnds: instant.nullable().describe('Until when it was dealt out; null where unknown or for ever'),
        served: z.boolean().describe('Cameras may come in by it'),
      }),
    ),
  })
  .meta({ id: 'LineInterface', description: 'One network interface of the station’s computer' });

export const lineDoor = z.object({
  name: z.enum(['ftp', 'ftps', 'sftp']),
  port: port.nullable().describe('Where it listens; null while it is shut'),
  wanted: port.nullable().describe('The port it should have had, where that is another one'),
  holder: z
    .string()
    .nullable()
    .describe('The program that has that port, as far as the system tells, with its number'),
  firewall: z.enum(['open', 'shut', 'unknown']).describe('What the computer’s own firewall does with it'),
});

export const lineFirewall = z.object({
  kind: z.enum(['nftables', 'iptables', 'ufw', 'firewalld', 'windows', 'macos', 'none', 'unknown']),
  read: z.boolean().describe('false where the system did not let the station look'),
  commands: z
    .array(z.string())
    .describe(
      'Lines for a terminal that open exactly the ports that are shut, or may be, to exactly the addresses in them; to copy, never run from a page; empty where nothing is shut',
    ),
});

/** How sure a finding is: proved by what was seen; the likeliest by far; one of several that fit. */
export const sureness = z.enum(['certain', 'likely', 'possible']);

/** `shut`: no frame comes by this way. `weak`: frames come late or break off, or by another door only. `note`: good to know before it hurts. */
export const lineWeight = z.enum(['shut', 'weak', 'note']);

export const lineCure = z.object({
  finding: finding.describe('What to do, in one sentence: codes line-cure.*'),
  commands: z.array(z.string()).describe('Lines for a terminal of the station’s computer, to copy'),
  at: z.enum(['camera', 'station', 'network']).describe('Where it is done'),
});

export const lineFinding = z
  .object({
    code: z.string().describe('What it is, without args, for programs: line-check.passive-shut'),
    weight: lineWeight,
    sure: sureness,
    camera: z
      .string()
      .nullable()
      .describe('Whose way it is about; null where it is everybody’s or nobody’s yet'),
    cause: finding.describe('What is wrong, in one sentence: codes line-check.*'),
    evidence: z.array(finding).describe('What was seen that says so: codes line-seen.*'),
    cures: z.array(lineCure).describe('What mends it, the surest first'),
  })
  .meta({
    id: 'LineFinding',
    description: 'Where the line is shut or weak, why, how that is known, and what mends it',
  });

export const lineCamera = z.object({
  name: z.string(),
  enter: z
    .string()
    .nullable()
    .describe('The station’s address to enter on it, after where it is; null if none'),
  entered: z.string().nullable().describe('The station’s address by which it last logged in'),
  seenAt: z.string().nullable().describe('The camera’s own address when it last logged in'),
  lastSeen: instant.nullable(),
  bytesPerSecond: z
    .number()
    .nullable()
    .describe(
      'What its newest arrivals brought from first to last byte, the median; null where none has come',
    ),
  speed: lineSpeed.nullable().describe('What that means; null where none has come'),
});

export const lineCheck = z
  .object({
    at: instant,
    open: z.boolean().describe('No finding says shut'),
    interfaces: z.array(lineInterface),
    doors: z.array(lineDoor),
    passive: z.object({
      from: port,
      to: port,
      taken: z.array(port).describe('Ports of the range that other programs have'),
      firewall: z.enum(['open', 'shut', 'unknown']),
    }),
    firewall: lineFirewall,
    links: z
      .object({ port, firewall: z.enum(['open', 'shut', 'unknown']) })
      .nullable()
      .describe(
        'The port for devices with a link, and what the firewall does with it; null while there is no link',
      ),
    mayEnter: z
      .array(z.string())
      .describe('The station’s addresses that a camera may be given, the likeliest first'),
    mdns: z
      .string()
      .nullable()
      .describe(
        'The name by which the station is told on the network (RFC 6762), ending in .local; null if not',
      ),
    disk: z.object({
      freeBytes: z.number().nonnegative(),
      floorBytes: z.number().nonnegative(),
      writeBytesPerSecond: z
        .number()
        .nullable()
        .describe('Written and synced just now; null if not measured'),
    }),
    cameras: z.array(lineCamera),
    findings: z.array(lineFinding).describe('The gravest first'),
  })
  .meta({
    id: 'LineCheck',
    description: 'Whether the way from camera to station is open, and if not, where it is shut',
  });

export type LineCheck = z.infer<typeof lineCheck>;
export type LineFinding = z.infer<typeof lineFinding>;
export type LineInterface = z.infer<typeof lineInterface>;
