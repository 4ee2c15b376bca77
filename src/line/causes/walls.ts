import { camerasMayEnter, networkOf } from '../addresses.ts';
import { doorNames } from '../door-names.ts';
import type { CameraFacts, LineFacts, WallFacts, WallState } from '../facts.ts';
import { openingCommands } from '../firewall/commands.ts';
import { portsText } from '../firewall/ports.ts';
import type { Cure, LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { otherDoors, weightOfShut } from './other-doors.ts';

/** What it takes to say what the firewall means for cameras. */
export type WallAsked = Pick<
  LineFacts,
  'doors' | 'passive' | 'linkPort' | 'firewall' | 'interfaces' | 'program'
> & {
  readonly cameras: readonly Pick<CameraFacts, 'allow' | 'ended' | 'protocols'>[];
};

/** This computer's own firewall lets cameras in nowhere, or to the doors and not to the data ports. */
export function ownFirewall(facts: WallAsked): readonly LineFinding[] {
  const used = doorsInUse(facts);
  const doors = wallsAt(facts, 'shut').filter(({ port }) => used.some((door) => door.port === port));
  const data = used.some(({ name }) => name !== 'sftp') ? passiveWalls(facts, 'shut') : [];
  return [
    ...(doors.length === 0 ? [] : [doorsShut(facts, doors)]),
    ...(data.length === 0 ? [] : [passiveShut(facts, data, null)]),
    ...linksShut(facts),
    ...unread(facts),
  ];
}

function doorsShut(facts: WallAsked, walls: readonly WallFacts[]): LineFinding {
  const ports = walls.map(({ port }) => port);
  const doors = doorsInUse(facts)
    .filter(({ port }) => port !== null && ports.includes(port))
    .map(({ name }) => name);
  return found(
    ['line-check.firewall-shut', weightOfShut(facts, doors, false), 'certain'],
    { ports: portsText(ports), doors: doors.map((name) => doorNames[name]).join(', ') },
    {
      evidence: [...ruleSeen(facts, walls), otherDoors(facts, doors)],
      cures: [openCure(facts, walls)],
    },
  );
}

/** The data ports are shut here; `camera` where one has run into it. */
export function passiveShut(
  facts: WallAsked,
  walls: readonly WallFacts[],
  camera: string | null,
): LineFinding {
  const { from, to } = facts.passive;
  return found(
    ['line-check.passive-shut', 'shut', 'certain'],
    { ports: `${from}-${to}` },
    {
      camera,
      evidence: ruleSeen(facts, walls),
      cures: [openCure(facts, walls)],
    },
  );
}

/** Phones and other devices with a link find nothing; cameras do not mind. */
function linksShut(facts: WallAsked): LineFinding[] {
  const { linkPort } = facts;
  const walls = wallsAt(facts, 'shut').filter(({ port }) => port === linkPort);
  if (linkPort === null || walls.length === 0) return [];
  return [
    found(
      ['line-check.links-shut', 'note', 'certain'],
      { port: linkPort },
      { evidence: ruleSeen(facts, walls), cures: [openCure(facts, walls, ownNetworks(facts))] },
    ),
  ];
}

function unread(facts: WallAsked): LineFinding[] {
  if (facts.firewall.read) return [];
  const unsure = wallsAt(facts, 'unknown').filter(({ port }) => port !== facts.linkPort);
  const all = unsure.length > 0 ? unsure : [];
  if (all.length === 0) return [];
  return [
    found(
      ['line-check.firewall-unread', 'note', 'possible'],
      {},
      {
        evidence: [seen('rules-unread', { kind: facts.firewall.kind })],
        cures: [cure('station', 'read-firewall'), openCure(facts, all)],
      },
    ),
  ];
}

export function passiveWalls(facts: WallAsked, state: WallState): readonly WallFacts[] {
  const { from, to } = facts.passive;
  return wallsAt(facts, state).filter(({ port }) => port >= from && port <= to);
}

function wallsAt({ firewall }: WallAsked, state: WallState): readonly WallFacts[] {
  return firewall.ports.filter((wall) => wall.state === state);
}

/** Doors that some camera may come in by. */
function doorsInUse({ doors, cameras }: WallAsked): LineFacts['doors'] {
  const active = cameras.filter(({ ended }) => !ended);
  return doors.filter(
    ({ name, port }) => port !== null && active.some(({ protocols }) => protocols.includes(name)),
  );
}

function ruleSeen({ firewall: { kind } }: WallAsked, walls: readonly WallFacts[]): ReturnType<typeof seen>[] {
  return [...new Set(walls.map(({ chain }) => chain ?? ''))].map((chain) =>
    seen('rule', {
      chain,
      kind,
      ports: portsText(walls.filter((wall) => (wall.chain ?? '') === chain).map(({ port }) => port)),
    }),
  );
}

/** The lines that open these ports, and no others, for the cameras, or whom `sources` names, and nobody else. */
function openCure(
  facts: WallAsked,
  walls: readonly WallFacts[],
  sources: readonly string[] = sourcesOf(facts),
): Cure {
  const { firewall, program } = facts;
  const ports = walls.map(({ port }) => port);
  const chains = [...new Set(walls.flatMap(({ chain }) => chain ?? []))];
  return cure(
    'station',
    'open-firewall',
    { ports: portsText(ports), sources: sources.join(', '), kind: firewall.kind },
    openingCommands({ kind: firewall.kind, ports, sources, chains, program }),
  );
}

/**
 * Where cameras come from: what each is allowed, and where one may come from anywhere or is known by its hardware address
 * alone, the networks of the station.
 */
function sourcesOf(facts: WallAsked): readonly string[] {
  const rules = facts.cameras.filter(({ ended }) => !ended).map(({ allow }) => allow);
  const isV4 = (rule: string): boolean => /^\d+(\.\d+){3}(\/\d+)?$/.test(rule);
  if (rules.length > 0 && rules.every((allow) => allow.length > 0 && allow.every(isV4))) {
    return [...new Set(rules.flat())];
  }
  return ownNetworks(facts);
}

function ownNetworks({ interfaces }: WallAsked): readonly string[] {
  return [
    ...new Set(
      camerasMayEnter(interfaces)
        .filter(({ interface: { kind } }) => kind !== 'tunnel')
        .map(({ address, prefixBits }) => networkOf(address, prefixBits)),
    ),
  ];
}
