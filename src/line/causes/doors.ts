import { doorNames } from '../door-names.ts';
import type { DoorFacts, LineFacts, LineSystem } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { otherDoors, weightOfShut } from './other-doors.ts';
import { hasLoggedIn } from './told.ts';

/** Troubles of the door that are the network's, and told as such. */
const ofTheNetwork: ReadonlySet<string> = new Set(['line.loopback-only', 'line.no-private-address']);

/** Doors that are shut, or not where people look for them. */
export function doorTroubles(facts: LineFacts): readonly LineFinding[] {
  return facts.doors.flatMap((door) => doorTrouble(facts, door) ?? []);
}

function doorTrouble(
  facts: LineFacts,
  { name, port, wanted, holder, trouble }: DoorFacts,
): LineFinding | null {
  const door = doorNames[name];
  const weight = weightOfShut(facts, [name], hasLoggedIn(facts));
  const holding = holder === null ? {} : { holder };
  const option = `--${name} PORT`;
  const asking = holder === null && wanted !== null ? whoHas(facts.system, wanted) : [];
  if (wanted !== null && port === null) {
    return found(
      ['line-check.port-taken', weight, 'certain'],
      { door, port: wanted },
      {
        evidence: [seen('holder', { port: wanted, ...holding }), otherDoors(facts, [name])],
        cures: [cure('station', 'end-program', { ...holding, option }, asking)],
      },
    );
  }
  if (wanted !== null && port !== null) {
    const forbidden = trouble?.code === 'line.port-forbidden';
    return found(
      ['line-check.other-port', 'note', 'certain'],
      { door, port, wanted },
      {
        evidence: [
          forbidden ? seen('forbidden', { port: wanted }) : seen('holder', { port: wanted, ...holding }),
        ],
        cures: [
          cure('camera', 'enter-port', { port }),
          forbidden ? null : cure('station', 'end-program', { ...holding, option }, asking),
        ],
      },
    );
  }
  if (port !== null || trouble === null || ofTheNetwork.has(trouble.code)) return null;
  return found(
    ['line-check.door-shut', weight, 'certain'],
    { door },
    {
      evidence: [trouble, otherDoors(facts, [name])],
      cures: [cure('station', 'look-at-door', { door })],
    },
  );
}

/** A line that names a program of another user, where the station is not told it. */
function whoHas(system: LineSystem, port: number): readonly string[] {
  switch (system) {
    case 'linux':
      return [`sudo ss -Hltnp 'sport = :${port}'`];
    case 'macos':
      return [`sudo lsof -nP -iTCP:${port} -sTCP:LISTEN`];
    case 'windows':
      return [`netstat -ano -p TCP | findstr :${port}`];
    case 'other':
      return [];
  }
}

/** With fewer data ports than this, cameras that send side by side wait for each other. */
const portsMin = 8;

/** Other programs have what the data connections need. */
export function passiveTaken({ passive: { from, to, taken } }: LineFacts): readonly LineFinding[] {
  const left = to - from + 1 - taken.length;
  // A small range that somebody chose is their choice.
  if (taken.length === 0 || left >= portsMin) return [];
  return [
    found(
      ['line-check.passive-taken', left === 0 ? 'shut' : 'weak', 'certain'],
      { count: taken.length, ports: `${from}-${to}` },
      { evidence: [seen('taken', { left })], cures: [cure('station', 'wider-range')] },
    ),
  ];
}
