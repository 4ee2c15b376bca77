import type { Finding } from '../../facts/index.ts';
import { doorNames } from '../door-names.ts';
import type { DoorFacts, LineFacts } from '../facts.ts';
import type { LineWeight } from '../shapes.ts';
import { seen } from './finding.ts';

type Door = DoorFacts['name'];

interface Asked extends Pick<LineFacts, 'doors' | 'firewall'> {
  readonly cameras: readonly { readonly ended: boolean; readonly protocols: readonly Door[] }[];
}

/**
 * How grave it is that some doors are shut: `shut` where a camera may come in by no other that is open, else `weak`. Most cameras
 * are set to FTP (common practice, no source): its door shut is the way shut, unless `cameIn` says that one came in since.
 */
export function weightOfShut(facts: Asked, shut: readonly Door[], cameIn: boolean): LineWeight {
  const open = openDoors(facts, shut);
  const active = facts.cameras.filter(({ ended }) => !ended);
  const isLost = active.some(({ protocols }) => !protocols.some((each) => open.includes(each)));
  if (open.length === 0 || isLost) return 'shut';
  return shut.includes('ftp') && !cameIn ? 'shut' : 'weak';
}

/** Which doors are open beside those that are shut; null where none is. */
export function otherDoors(facts: Asked, shut: readonly Door[]): Finding | null {
  const open = facts.doors.filter(({ name }) => openDoors(facts, shut).includes(name));
  const doors = open.map(({ name, port }) => `${doorNames[name]} (${port})`).join(', ');
  return doors === '' ? null : seen('other-doors', { doors });
}

function openDoors({ doors, firewall }: Asked, shut: readonly Door[]): readonly Door[] {
  const walled = new Set(firewall.ports.flatMap(({ port, state }) => (state === 'shut' ? [port] : [])));
  return doors
    .filter(({ name, port }) => port !== null && !walled.has(port) && !shut.includes(name))
    .map(({ name }) => name);
}
