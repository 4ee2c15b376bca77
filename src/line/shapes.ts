import type { Finding } from '../facts/index.ts';

/** `certain`: proved by what was seen. `likely`: by far the likeliest. `possible`: one of several that fit. */
export type Sureness = 'certain' | 'likely' | 'possible';

/** `shut`: no frame comes by this way. `weak`: frames come late or break off, or by another door only. `note`: good to know before it hurts. */
export type LineWeight = 'shut' | 'weak' | 'note';

export interface Cure {
  readonly finding: Finding;
  /** Lines for a terminal of the station's computer, to copy. */
  readonly commands: readonly string[];
  readonly at: 'camera' | 'station' | 'network';
}

/** Where the line is shut or weak, why, how that is known, and what mends it. */
export interface LineFinding {
  /** One of {@link causeCodes}. */
  readonly code: CauseCode;
  readonly weight: LineWeight;
  readonly sure: Sureness;
  readonly camera: string | null;
  readonly cause: Finding;
  readonly evidence: readonly Finding[];
  /** The surest first. */
  readonly cures: readonly Cure[];
}

/** Everything that can be found. `words` has the sentence of each. */
export const causeCodes = [
  'line-check.address-changed',
  'line-check.address-dealt-out',
  'line-check.no-network',
  'line-check.no-dhcp',
  'line-check.only-public',
  'line-check.door-shut',
  'line-check.port-taken',
  'line-check.other-port',
  'line-check.firewall-shut',
  'line-check.links-shut',
  'line-check.firewall-unread',
  'line-check.passive-shut',
  'line-check.passive-shut-between',
  'line-check.passive-taken',
  'line-check.address-translated',
  'line-check.active-behind-wall',
  'line-check.nothing-came',
  'line-check.kept-apart',
  'line-check.not-there',
  'line-check.other-network',
  'line-check.tunnel-took-route',
  'line-check.address-twice',
  'line-check.wrong-user',
  'line-check.wrong-password',
  'line-check.address-not-allowed',
  'line-check.way-not-allowed',
  'line-check.camera-ended',
  'line-check.too-many-tries',
  'line-check.tls-version',
  'line-check.tls-untrusted',
  'line-check.tls-clock',
  'line-check.tls-not-spoken',
  'line-check.tls-failed',
  'line-check.tls-data',
  'line-check.folder-refused',
  'line-check.disk-full',
  'line-check.disk-slow',
  'line-check.weak-line',
  'line-check.goes-to-sleep',
] as const;
export type CauseCode = (typeof causeCodes)[number];
