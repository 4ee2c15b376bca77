import type { Finding } from '../facts/index.ts';
import { isInNetwork, networkOf, plainAddress } from './addresses.ts';
import type { CameraFacts, InterfaceFacts, WallState } from './facts.ts';

/** What came of a test by a device with a link, such as a phone beside the camera. */
export interface DeviceTry {
  /** Its own address, and the station's as it reached it. */
  readonly from: string;
  readonly reached: string;
  readonly bytes: number;
  readonly ms: number;
}

export interface DeviceAround {
  readonly interfaces: readonly Pick<InterfaceFacts, 'addresses'>[];
  readonly cameras: readonly Pick<CameraFacts, 'name' | 'ended' | 'login' | 'bytesPerSecond'>[];
  /** What the computer's firewall does with the doors and passive ports of cameras, the worst of them. */
  readonly walls: WallState;
}

/** So many times as fast or slow is a difference; below it is how Wi-Fi is (common practice, no source). */
const differs = 2;
/** A camera's own Wi-Fi brings no more than this, bytes a second; faster than that proves nothing about it. */
const fastEnough = 3_000_000;

/**
 * What the test says about the cameras' way: whether the device stands where they do, comes to the address that is entered
 * on them, and how its speed compares with theirs. It proves the network, and no door of a camera: that is said last.
 */
export function deviceFindings(
  { from, reached, bytes, ms }: DeviceTry,
  { interfaces, cameras, walls }: DeviceAround,
): readonly Finding[] {
  const bytesPerSecond = (bytes / Math.max(1, ms)) * 1000;
  const networks = interfaces
    .flatMap(({ addresses }) => addresses)
    .map(({ address, prefixBits }) => networkOf(address, prefixBits));
  const ofDevice = networks.filter((network) => isInNetwork(from, network));
  const own = plainAddress(from) === plainAddress(reached);
  return [
    { code: 'rehearsal.device-through', args: { bytes, ms, bytesPerSecond } },
    ...(own ? [{ code: 'rehearsal.own-computer', args: {} }] : []),
    ...cameras
      .filter(({ ended }) => !ended)
      .flatMap(({ name: camera, login, bytesPerSecond: its }) => [
        ...(login === null ? [] : placed(camera, login, reached, ofDevice)),
        ...(its === null ? [] : compared(camera, its, bytesPerSecond)),
      ]),
    { code: `rehearsal.device-doors-${walls}`, args: {} },
  ];
}

function placed(
  camera: string,
  login: NonNullable<CameraFacts['login']>,
  reached: string,
  ofDevice: readonly string[],
): readonly Finding[] {
  const together = ofDevice.some((network) => isInNetwork(login.address, network));
  return [
    { code: together ? 'rehearsal.device-beside' : 'rehearsal.device-elsewhere', args: { camera } },
    ...(plainAddress(login.local) === plainAddress(reached)
      ? []
      : [{ code: 'rehearsal.device-other-address', args: { camera } }]),
  ];
}

function compared(camera: string, its: number, bytesPerSecond: number): readonly Finding[] {
  const args = { camera, cameraBytesPerSecond: its };
  if (bytesPerSecond > its * differs && its < fastEnough) return [{ code: 'rehearsal.device-faster', args }];
  return bytesPerSecond * differs < its ? [{ code: 'rehearsal.device-slower', args }] : [];
}
