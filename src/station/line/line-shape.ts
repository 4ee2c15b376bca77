import { type EpochMs, epochMsToRfc3339 } from '../../base/index.ts';
import type { LineCheck, LineRehearsal } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  addressesToEnter,
  addressFor,
  addressUse,
  type DeviceTry,
  type DoorFacts,
  deviceFindings,
  diagnose,
  type InterfaceFacts,
  type LineFacts,
  type LineFinding,
  type LineSpeed,
  networkOf,
  speedFinding,
  type WallState,
} from '../../line/index.ts';

/** The contract's words for what was looked at and found. */
export function lineCheckShape(
  facts: LineFacts,
  mdns: string | null,
  speeds: ReadonlyMap<string, LineSpeed>,
): LineCheck {
  const findings = diagnose(facts);
  return {
    at: epochMsToRfc3339(facts.nowMs),
    open: !findings.some(({ weight }) => weight === 'shut'),
    interfaces: facts.interfaces.map(interfaceShape),
    doors: facts.doors.map((door) => doorShape(door, facts)),
    passive: {
      ...facts.passive,
      taken: [...facts.passive.taken],
      firewall: wallOver(facts, facts.passive.from, facts.passive.to),
    },
    firewall: {
      kind: facts.firewall.kind,
      read: facts.firewall.read,
      commands: openingOf(findings),
    },
    links:
      facts.linkPort === null
        ? null
        : { port: facts.linkPort, firewall: wallOver(facts, facts.linkPort, facts.linkPort) },
    mayEnter: addressesToEnter(facts).map(({ address }) => address),
    mdns,
    disk: { ...facts.disk },
    cameras: facts.cameras
      .filter(({ ended }) => !ended)
      .map((camera) => ({
        name: camera.name,
        enter: addressFor(facts, camera)?.address ?? null,
        entered: camera.login?.local ?? null,
        seenAt: camera.login?.address ?? null,
        lastSeen: camera.login === null ? null : epochMsToRfc3339(camera.login.atMs),
        bytesPerSecond: camera.bytesPerSecond,
        speed: speedShape(speeds.get(camera.name)),
      })),
    findings: findings.map(findingShape),
  };
}

/** Every line that opens the firewall, each once. */
export function openingOf(
  findings: readonly {
    readonly cures: readonly { readonly finding: Finding; readonly commands: readonly string[] }[];
  }[],
): string[] {
  return [
    ...new Set(
      findings
        .flatMap(({ cures }) => cures)
        .filter(({ finding }) => finding.code === 'line-cure.open-firewall')
        .flatMap(({ commands }) => commands),
    ),
  ];
}

/** The same for what a device with a link tried. */
export function rehearsalShape(device: DeviceTry, facts: LineFacts): LineRehearsal {
  const walls = wallOver(facts, 1, 65_535);
  return {
    bytes: device.bytes,
    seconds: device.ms / 1000,
    findings: deviceFindings(device, { ...facts, walls }).map(plain),
  };
}

function speedShape(speed: LineSpeed | undefined): LineCheck['cameras'][number]['speed'] {
  if (speed === undefined) return null;
  const { files, sinceMs, bytesPerSecond, slowest, fastest, busy, raw, jpeg, firstViewMs, cableMs } = speed;
  return {
    ...{ files, since: epochMsToRfc3339(sinceMs), bytesPerSecond, slowest, fastest, busy },
    raw: { bytes: raw.bytes, measured: raw.measured, seconds: raw.ms / 1000 },
    jpeg: { bytes: jpeg.bytes, measured: jpeg.measured, seconds: jpeg.ms / 1000 },
    firstViewSeconds: firstViewMs === null ? null : firstViewMs / 1000,
    cableSeconds: cableMs / 1000,
    finding: plain(speedFinding(speed)),
  };
}

function interfaceShape({ addresses, ...rest }: InterfaceFacts): LineCheck['interfaces'][number] {
  return {
    ...rest,
    addresses: addresses.map(({ address, family, prefixBits, given, leaseEndsMs, served }) => ({
      address,
      family,
      network: networkOf(address, prefixBits),
      use: addressUse(address),
      given,
      leaseEnds: momentOf(leaseEndsMs),
      served,
    })),
  };
}

function doorShape({ name, port, wanted, holder }: DoorFacts, facts: LineFacts): LineCheck['doors'][number] {
  return { name, port, wanted, holder, firewall: port === null ? 'unknown' : wallOver(facts, port, port) };
}

/** Shut where one port of the range is; open where all are. */
export function wallOver({ firewall }: Pick<LineFacts, 'firewall'>, from: number, to: number): WallState {
  const states = firewall.ports.filter(({ port }) => port >= from && port <= to).map(({ state }) => state);
  if (states.includes('shut')) return 'shut';
  return states.length > 0 && states.every((state) => state === 'open') ? 'open' : 'unknown';
}

export function findingShape({
  cause,
  evidence,
  cures,
  ...rest
}: LineFinding): LineCheck['findings'][number] {
  return {
    ...rest,
    cause: plain(cause),
    evidence: evidence.map(plain),
    cures: cures.map(({ finding, commands, at }) => ({
      finding: plain(finding),
      commands: [...commands],
      at,
    })),
  };
}

function plain({ code, args }: Finding): { code: string; args: Record<string, string | number> } {
  return { code, args: { ...args } };
}

function momentOf(atMs: EpochMs | null): string | null {
  return atMs === null ? null : epochMsToRfc3339(atMs);
}
