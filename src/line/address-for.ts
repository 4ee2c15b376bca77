import { camerasMayEnter, isInNetwork, networkOf, type PlacedAddress } from './addresses.ts';
import type { CameraFacts, LineFacts } from './facts.ts';

type Asked = Pick<LineFacts, 'interfaces' | 'neighbours'>;

/**
 * The station's address to enter on a camera: that of the network the camera is in, as far as anything says where it is,
 * else the first that a camera can be given, self-given ones (RFC 3927) last; null where there is none.
 */
export function addressFor(facts: Asked, camera: CameraFacts | null): PlacedAddress | null {
  const mine = inOrder(camerasMayEnter(facts.interfaces));
  const where = camera === null ? null : whereaboutsOf(facts, camera);
  return (where === null ? undefined : mine.find((each) => holds(each, where))) ?? mine[0] ?? null;
}

/** The camera's own address as far as anything says it: where it was last, where it may come from, who has its hardware address. */
export function whereaboutsOf({ interfaces, neighbours }: Asked, camera: CameraFacts): string | null {
  const byHardware = neighbours.find(({ hardware }) => camera.allow.includes(hardware))?.address;
  const allowed = camera.allow.find((rule) => /^\d+(\.\d+){3}(\/\d+)?$/.test(rule))?.split('/')[0];
  const mine = camerasMayEnter(interfaces);
  // An address in none of our networks says nothing about which of them it is in.
  return (
    [byHardware, camera.login?.address, allowed].find(
      (address) => address !== undefined && mine.some((each) => holds(each, address)),
    ) ?? null
  );
}

/** Whether a camera's address is in the network of one of ours. */
export function holds({ address, prefixBits }: PlacedAddress, cameras: string): boolean {
  return isInNetwork(cameras, networkOf(address, prefixBits));
}

/**
 * Every address that a camera may be given, the likeliest first: without those of bridges to guests of this computer, and of
 * tunnels, unless there are no others.
 */
export function addressesToEnter({ interfaces }: Pick<Asked, 'interfaces'>): readonly PlacedAddress[] {
  const mine = inOrder(camerasMayEnter(interfaces));
  const near = mine.filter((each) => !isBeside(each));
  return near.length > 0 ? near : mine;
}

/** A bridge that leads to a router carries this computer's own network. */
function isBeside({ interface: { kind, gateway } }: PlacedAddress): boolean {
  return kind === 'tunnel' || (kind === 'virtual' && gateway === null);
}

function inOrder(addresses: readonly PlacedAddress[]): readonly PlacedAddress[] {
  const rank = (each: PlacedAddress): number => (each.given === 'self' ? 4 : 0) + (isBeside(each) ? 2 : 0);
  return [...addresses].sort((one, other) => rank(one) - rank(other));
}
