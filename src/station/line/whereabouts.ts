import {
  addressUse,
  type CameraFacts,
  camerasMayEnter,
  type DoorFacts,
  isInNetwork,
  type LineFacts,
  networkOf,
  whereaboutsOf,
} from '../../line/index.ts';
import type { Approach } from './look-firewall.ts';
import { reachOf } from './look-neighbours.ts';

interface Range {
  readonly from: number;
  readonly to: number;
}

/** What says where a camera is. */
export type Around = Pick<LineFacts, 'interfaces' | 'neighbours'>;

/** Only where it was, in a network of ours: nobody else's device is asked. */
export async function withReach({ interfaces }: Around, camera: CameraFacts): Promise<CameraFacts> {
  const { login, connected, ended } = camera;
  if (login === null || connected || ended || addressUse(login.address) === 'loopback') return camera;
  const isNear = camerasMayEnter(interfaces).some(({ address, prefixBits }) =>
    isInNetwork(login.address, networkOf(address, prefixBits)),
  );
  return isNear ? { ...camera, reach: await reachOf(login.address) } : camera;
}

/** Addresses whose way matters: of each camera where it was last, and of one place in each of our networks. */
export function placesOf(around: Around, cameras: readonly CameraFacts[]): readonly string[] {
  const ofCameras = cameras.flatMap(({ login, ended }) =>
    login === null || ended || addressUse(login.address) === 'loopback' ? [] : [login.address],
  );
  return [...new Set([...ofCameras, ...approachesOf(around, []).map(({ source }) => source)])];
}

/** From where a camera's first packet would come to each of our addresses: from a camera that is known there, else from a neighbour's place. */
export function approachesOf(around: Around, cameras: readonly CameraFacts[]): readonly Approach[] {
  return camerasMayEnter(around.interfaces).flatMap((mine) => {
    const network = networkOf(mine.address, mine.prefixBits);
    const known = cameras
      .filter(({ ended }) => !ended)
      .map((camera) => whereaboutsOf(around, camera))
      .filter((where) => where !== null)
      .filter((where) => isInNetwork(where, network));
    const sources = known.length > 0 ? known : [besides(mine.address)];
    return [...new Set(sources)].map((source) => ({
      interface: mine.interface.name,
      source,
      destination: mine.address,
    }));
  });
}

/** Some other address of the same network. */
function besides(address: string): string {
  const [, head = '', last = '0'] = /^(.*\.)(\d+)$/.exec(address) ?? [];
  return `${head}${Number(last) === 33 ? 34 : 33}`;
}

export function portsOf(
  doors: readonly DoorFacts[],
  { from, to }: Range,
  linkPort: number | null,
): readonly number[] {
  const range = Array.from({ length: to - from + 1 }, (_, index) => from + index);
  const open = [...doors.map(({ port }) => port), linkPort].filter((port) => port !== null);
  return [...open, ...range];
}

export function takenOf({ from, to }: Range, holders: ReadonlyMap<number, string>): readonly number[] {
  const own = `(${process.pid})`;
  return [...holders]
    .filter(([port, holder]) => port >= from && port <= to && !holder.includes(own))
    .map(([port]) => port);
}
