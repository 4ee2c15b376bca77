import { addressFor, holds, whereaboutsOf } from '../address-for.ts';
import { camerasMayEnter, networkOf, type PlacedAddress } from '../addresses.ts';
import type { LineFacts } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { addressOf } from './told.ts';

/** The station is in several networks, and a camera may have been given the address of another than its own. */
export function otherNetwork(facts: LineFacts): readonly LineFinding[] {
  const mine = camerasMayEnter(facts.interfaces).filter(
    ({ interface: { kind }, given }) => kind !== 'tunnel' && kind !== 'virtual' && given !== 'self',
  );
  const count = new Set(mine.map(netOf)).size;
  if (count < 2) return [];
  const addresses = mine.map(({ address, interface: { name } }) => `${address} (${name})`).join(', ');
  const active = facts.cameras.filter(({ ended }) => !ended);
  const astray = active.flatMap((camera) => {
    const [where, enter] = [whereaboutsOf(facts, camera), addressFor(facts, camera)];
    if (where === null || enter === null || hasCome(facts, camera.name)) return [];
    // What it was given is right, as far as anybody knows.
    if (camera.login !== null && camera.login.local === enter.address) return [];
    if (camera.login === null && addressFor(facts, null)?.address === enter.address) return [];
    return [
      found(
        ['line-check.other-network', 'weak', 'likely'],
        { count, local: enter.address },
        {
          camera: camera.name,
          evidence: [
            seen('networks', { addresses }),
            seen('camera-in', { camera: camera.name, address: where, network: netOf(enter) }),
          ],
          cures: [cure('camera', 'enter-address', { camera: camera.name, local: enter.address })],
        },
      ),
    ];
  });
  const nobodyKnows = active.some(
    (camera) => whereaboutsOf(facts, camera) === null && !hasCome(facts, camera.name),
  );
  if (astray.length > 0 || !nobodyKnows) return astray;
  return [
    found(
      ['line-check.other-network', 'note', 'possible'],
      { count },
      {
        evidence: [seen('networks', { addresses })],
        cures: mine.map(({ address }) => cure('camera', 'enter-address', { local: address })),
      },
    ),
  ];
}

function netOf({ address, prefixBits }: PlacedAddress): string {
  return networkOf(address, prefixBits);
}

function hasCome({ lines, startedMs }: LineFacts, camera: string): boolean {
  return lines.some((line) => line.camera === camera && line.atMs >= startedMs);
}

/** The way to a camera, or to a whole network of ours, goes into a tunnel. */
export function tunnelTookRoute(facts: LineFacts): readonly LineFinding[] {
  const tunnels = new Set(facts.interfaces.filter(({ kind }) => kind === 'tunnel').map(({ name }) => name));
  const mine = camerasMayEnter(facts.interfaces).filter(({ interface: { kind } }) => kind !== 'tunnel');
  const told = new Set<string>();
  return facts.ways.flatMap((way) => {
    if (!tunnels.has(way.interface)) return [];
    const home = mine.find((each) => holds(each, way.to));
    const camera = facts.cameras.find((each) => !each.ended && whereIs(facts, each.name) === way.to);
    if (home === undefined && camera === undefined) return [];
    const network = home === undefined ? way.to : netOf(home);
    if (told.has(network)) return [];
    told.add(network);
    return [
      found(
        ['line-check.tunnel-took-route', 'shut', home === undefined ? 'likely' : 'certain'],
        { interface: way.interface },
        {
          camera: camera?.name ?? null,
          evidence: [seen('way', { address: way.to, interface: way.interface })],
          cures: [cure('station', 'tunnel-off', { network })],
        },
      ),
    ];
  });
}

function whereIs({ cameras, lines }: LineFacts, name: string): string | null {
  const last = lines.findLast(({ camera }) => camera === name);
  const camera = cameras.find((each) => each.name === name);
  return camera?.login?.address ?? (last === undefined ? null : addressOf(last));
}

/** More than one device answers for an address. */
export function addressTwice({ doubles }: LineFacts): readonly LineFinding[] {
  return doubles.map(({ address, hardware, otherMs, withinMs }) =>
    found(
      ['line-check.address-twice', 'weak', 'certain'],
      { address },
      {
        evidence: [
          seen('double', { address, hardware: hardware.join(' and ') }),
          seen('double-since', { ms: otherMs, withinMs }),
        ],
        cures: [cure('network', 'one-each', { address })],
      },
    ),
  );
}
