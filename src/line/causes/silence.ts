import { addressFor, whereaboutsOf } from '../address-for.ts';
import { camerasMayEnter, isInNetwork, networkOf } from '../addresses.ts';
import type { LineFacts } from '../facts.ts';
import { portsText } from '../firewall/ports.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { somebodyCame } from './told.ts';

/** Nobody has reached the station since its start: what was looked at, and what to look at on the camera. */
export function nothingCame(facts: LineFacts): readonly LineFinding[] {
  const mine = addressFor(facts, facts.cameras.find(({ ended }) => !ended) ?? null);
  if (somebodyCame(facts) || mine === null) return [];
  const open = facts.doors.flatMap(({ port }) => (port === null ? [] : [port]));
  return [
    found(
      ['line-check.nothing-came', 'note', 'certain'],
      {},
      {
        evidence: [
          seen('nothing', { ms: facts.nowMs - facts.startedMs }),
          seen('listening', { ports: portsText(open) }),
        ],
        cures: [
          cure('camera', 'check-camera', {
            local: mine.address,
            network: networkOf(mine.address, mine.prefixBits),
            port: portsText(open.slice(0, 1)),
          }),
        ],
      },
    ),
  ];
}

/** A camera that came before is not where it was. */
export function notThere(facts: LineFacts): readonly LineFinding[] {
  return facts.cameras
    .filter(({ ended, connected, reach }) => !ended && !connected && reach === 'no-host')
    .map(({ name, login }) =>
      found(
        ['line-check.not-there', 'note', 'likely'],
        { address: login?.address ?? '' },
        {
          camera: name,
          evidence: [seen('no-answer', { address: login?.address ?? '' })],
          cures: [cure('camera', 'wake-camera', { camera: name })],
        },
      ),
    );
}

/** Nobody but the router is ever heard, and a camera that should be near does not answer. */
export function keptApart(facts: LineFacts): readonly LineFinding[] {
  if (somebodyCame(facts)) return [];
  return camerasMayEnter(facts.interfaces).flatMap((mine) => {
    const { name, gateway } = mine.interface;
    const network = networkOf(mine.address, mine.prefixBits);
    const heard = facts.neighbours.filter(
      (each) => each.interface === name && isInNetwork(each.address, network),
    );
    const missed = facts.cameras.some((camera) => {
      const where = whereaboutsOf(facts, camera);
      return (
        where !== null && isInNetwork(where, network) && camera.reach !== null && camera.reach !== 'answers'
      );
    });
    if (gateway === null || !missed || heard.some(({ address }) => address !== gateway)) return [];
    return [
      found(
        ['line-check.kept-apart', 'note', 'possible'],
        { interface: name },
        {
          evidence: [seen('neighbours', { network, address: gateway })],
          cures: [cure('network', 'let-devices-meet')],
        },
      ),
    ];
  });
}
