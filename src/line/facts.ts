import type { EpochMs } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';

/** What was looked at and heard, as plain data; whoever looks is `station`. */
export interface LineFacts {
  readonly nowMs: EpochMs;
  /** When the doors were opened. */
  readonly startedMs: EpochMs;
  readonly system: LineSystem;
  readonly interfaces: readonly InterfaceFacts[];
  readonly doors: readonly DoorFacts[];
  readonly passive: { readonly from: number; readonly to: number; readonly taken: readonly number[] };
  /** The port for devices with a link; null while there is no link. */
  readonly linkPort: number | null;
  readonly firewall: FirewallFacts;
  /** When the own firewall was last seen to shut passive ports; null where it was not since the start. */
  readonly passiveShutMs: EpochMs | null;
  /** How the system would send to an address that matters, such as a camera's. */
  readonly ways: readonly WayFacts[];
  readonly neighbours: readonly NeighbourFacts[];
  /** Addresses that more than one device answered for lately. */
  readonly doubles: readonly DoubleFacts[];
  readonly cameras: readonly CameraFacts[];
  /** What happened on the line, oldest first. */
  readonly lines: readonly LineFact[];
  readonly disk: DiskFacts;
  /** TCP packets received of late, and those among them that came before an earlier one: that one was lost. Null where not counted. */
  readonly packets: { readonly received: number; readonly outOfOrder: number } | null;
  /** The program that listens, for a firewall that asks about programs. */
  readonly program: string;
  /** Since when and until when the certificate that cameras are shown is valid; null without TLS. */
  readonly certificate: { readonly notBeforeMs: EpochMs; readonly notAfterMs: EpochMs } | null;
}

export type LineSystem = 'linux' | 'macos' | 'windows' | 'other';

export interface InterfaceFacts {
  readonly name: string;
  readonly kind: 'wired' | 'wireless' | 'tunnel' | 'virtual' | 'loopback' | 'unknown';
  readonly up: boolean;
  /** Lower case with colons. */
  readonly hardware: string | null;
  readonly bitsPerSecond: number | null;
  readonly gateway: string | null;
  readonly addresses: readonly AddressFacts[];
}

export interface AddressFacts {
  readonly address: string;
  readonly family: 'IPv4' | 'IPv6';
  /** Bits of the network: 24. */
  readonly prefixBits: number;
  readonly given: 'dealt-out' | 'fixed' | 'self' | 'unknown';
  readonly leaseEndsMs: EpochMs | null;
  /** Cameras may come in by it. */
  readonly served: boolean;
}

export interface DoorFacts {
  readonly name: 'ftp' | 'ftps' | 'sftp';
  /** Null while it is shut. */
  readonly port: number | null;
  /** The port it should have had, where it has another or none. */
  readonly wanted: number | null;
  /** What has the wanted port: `nginx (812)`; null where nobody has it or nobody tells. */
  readonly holder: string | null;
  readonly trouble: Finding | null;
}

export type WallState = 'open' | 'shut' | 'unknown';

export interface FirewallFacts {
  readonly kind: 'nftables' | 'iptables' | 'ufw' | 'firewalld' | 'windows' | 'macos' | 'none' | 'unknown';
  readonly read: boolean;
  readonly ports: readonly WallFacts[];
}

/** What the computer's own firewall does with a packet that opens a connection. */
export interface WallFacts {
  readonly port: number;
  readonly state: WallState;
  /** Where the rule that says so stands: `inet filter input`; null where none does. */
  readonly chain: string | null;
}

export interface WayFacts {
  readonly to: string;
  readonly interface: string;
  /** The station's own address that answers would come from. */
  readonly source: string | null;
  readonly gateway: string | null;
}

export interface DoubleFacts {
  readonly address: string;
  readonly hardware: readonly string[];
  /** How long one of them alone has answered, milliseconds; after `withinMs` it is taken for settled. */
  readonly otherMs: number;
  readonly withinMs: number;
}

export interface NeighbourFacts {
  readonly address: string;
  readonly hardware: string;
  readonly interface: string;
}

export interface CameraFacts {
  readonly name: string;
  readonly user: string;
  /** Where it may come from; empty for everywhere. */
  readonly allow: readonly string[];
  readonly protocols: readonly DoorFacts['name'][];
  readonly connected: boolean;
  readonly ended: boolean;
  /** How it came in last, this run or an earlier one. */
  readonly login: LoginFacts | null;
  /**
   * What its last address says now: `answers` (it is there), `silent` (packets go nowhere), `no-host` (nobody has that
   * address); null where it was not asked.
   */
  readonly reach: 'answers' | 'silent' | 'no-host' | null;
  readonly bytesPerSecond: number | null;
}

export interface LoginFacts {
  /** The station's address that it came to: what was entered on it. */
  readonly local: string;
  readonly address: string;
  readonly atMs: EpochMs;
}

export interface LineFact {
  readonly atMs: EpochMs;
  readonly camera: string | null;
  readonly address: string;
  readonly finding: Finding;
}

export interface DiskFacts {
  readonly freeBytes: number;
  readonly floorBytes: number;
  readonly writeBytesPerSecond: number | null;
}
