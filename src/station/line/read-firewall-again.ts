import type { CameraEntry, LineCheck, LineInterface } from '../../contract/index.ts';
import { type CameraFacts, type InterfaceFacts, ownFirewall } from '../../line/index.ts';
import { findingShape, openingOf, wallOver } from './line-shape.ts';
import { lookFirewall } from './look-firewall.ts';
import { systemOf } from './system-of.ts';
import { approachesOf, portsOf } from './whereabouts.ts';

/**
 * The check of a station on this computer that was not let at the firewall's rules, with what this process reads in them, such
 * as an administrator's; unchanged where it is not let at them either.
 */
export async function readFirewallAgain(
  check: LineCheck,
  entries: readonly Pick<CameraEntry, 'name' | 'user' | 'allow' | 'protocols' | 'connected' | 'ended'>[],
  look: typeof lookFirewall = lookFirewall,
): Promise<LineCheck> {
  if (check.firewall.read) return check;
  const cameras = entries.map((entry) => cameraOf(entry, check));
  const interfaces = check.interfaces.map(interfaceOf);
  const doors = check.doors.map((door) => ({ ...door, trouble: null }));
  const linkPort = check.links?.port ?? null;
  const firewall = await look(
    systemOf(process.platform),
    portsOf(doors, check.passive, linkPort),
    approachesOf({ interfaces, neighbours: [] }, cameras),
  );
  if (!firewall.read) return check;
  const { passive } = check;
  const program = process.execPath;
  const facts = { doors, cameras, interfaces, firewall, passive, linkPort, program };
  const findings = [
    ...ownFirewall(facts).map(findingShape),
    ...check.findings.filter(({ code }) => code !== 'line-check.firewall-unread'),
  ];
  const gravity = ['shut', 'weak', 'note'];
  findings.sort((one, other) => gravity.indexOf(one.weight) - gravity.indexOf(other.weight));
  return {
    ...check,
    findings,
    open: !findings.some(({ weight }) => weight === 'shut'),
    doors: check.doors.map((door) => ({
      ...door,
      firewall: door.port === null ? 'unknown' : wallOver(facts, door.port, door.port),
    })),
    passive: { ...check.passive, firewall: wallOver(facts, check.passive.from, check.passive.to) },
    links: linkPort === null ? null : { port: linkPort, firewall: wallOver(facts, linkPort, linkPort) },
    firewall: { kind: firewall.kind, read: true, commands: openingOf(findings) },
  };
}

function cameraOf(
  { name, user, allow, protocols, connected, ended }: Parameters<typeof readFirewallAgain>[1][number],
  check: LineCheck,
): CameraFacts {
  const line = check.cameras.find((camera) => camera.name === name);
  const { entered = null, seenAt = null, lastSeen = null } = line ?? {};
  const login =
    entered === null || seenAt === null
      ? null
      : { local: entered, address: seenAt, atMs: lastSeen === null ? 0 : Date.parse(lastSeen) };
  const speed = line?.bytesPerSecond ?? null;
  return { name, user, allow, protocols, connected, ended, login, reach: null, bytesPerSecond: speed };
}

function interfaceOf({ addresses, ...rest }: LineInterface): InterfaceFacts {
  return {
    ...rest,
    addresses: addresses.map(({ address, family, network, given, leaseEnds, served }) => ({
      ...{ address, family, given, served },
      prefixBits: Number(network.split('/')[1] ?? 32),
      leaseEndsMs: leaseEnds === null ? null : Date.parse(leaseEnds),
    })),
  };
}
