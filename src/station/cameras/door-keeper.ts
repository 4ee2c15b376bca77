import { createHash, timingSafeEqual } from 'node:crypto';
import type { Finding } from '../../facts/index.ts';
import type {
  AdmittedCamera,
  CameraFolder,
  Credentials,
  DoorKeeper,
  KeyKeeper,
} from '../../receive/index.ts';
import { type HardwareOf, isAllowedFrom } from './allowed.ts';
import type { CameraRoster } from './camera-roster.ts';
import type { Camera } from './core/camera.ts';
import { asTyped } from './core/password.ts';
import { publicKeyIn } from './public-key.ts';

/**
 * Lets a camera in by its user and password, from where it is allowed and by a door it may use. User and password are
 * compared as digests in constant time and for every camera, so that neither the answer nor its delay tells a wrong
 * user from a wrong password (RFC 2577 section 7). Who knew both and may not come in all the same gets that answer too;
 * `refused` hears why, for the camera's log.
 */
export function keepDoor(
  roster: Pick<CameraRoster, 'all'>,
  folderOf: (camera: string) => CameraFolder,
  hardwareOf: HardwareOf,
  refused: (camera: string, address: string, finding: Finding) => void,
): DoorKeeper & KeyKeeper {
  const admitFound = async (
    found: Camera | null,
    from: Pick<Credentials, 'address' | 'via'>,
  ): Promise<AdmittedCamera | 'told' | null> => {
    if (found === null) return null;
    const finding = await whyNot(found, from, hardwareOf);
    if (finding === null) return { name: found.name, folder: folderOf(found.name) };
    refused(found.name, from.address, finding);
    return 'told';
  };
  return {
    async admit(credentials: Credentials): Promise<AdmittedCamera | 'told' | null> {
      let found: Camera | null = null;
      for (const camera of roster.all()) {
        const user = sameText(camera.user, credentials.user);
        const password = samePassword(camera.password, credentials.password);
        if (user && password) found = camera;
      }
      return admitFound(found, credentials);
    },
    async admitKey({ user, key, address }): Promise<AdmittedCamera | null> {
      let found: Camera | null = null;
      for (const camera of roster.all()) {
        const sameUser = sameText(camera.user, user);
        const holds = camera.keys.some((line) => sameText(publicKeyIn(line), key));
        if (sameUser && holds) found = camera;
      }
      const admitted = await admitFound(found, { address, via: 'sftp' });
      return admitted === 'told' ? null : admitted;
    },
  };
}

async function whyNot(
  { name: camera, ended, protocols, allow }: Camera,
  { address, via }: Pick<Credentials, 'address' | 'via'>,
  hardwareOf: HardwareOf,
): Promise<Finding | null> {
  if (ended) return { code: 'line.camera-ended', args: { camera, address } };
  if (!protocols.includes(via)) return { code: 'line.wrong-door', args: { camera, door: via.toUpperCase() } };
  if (await isAllowedFrom(allow, address, hardwareOf)) return null;
  return { code: 'line.not-allowed-from', args: { camera, address } };
}

/** As written, or, for one the station made, as somebody meant it. Always two comparisons: the time tells nothing. */
function samePassword(expected: string, given: string): boolean {
  const asWritten = sameText(expected, given);
  const asMeant = sameText(expected, asTyped(expected, given) ?? given);
  return asWritten || asMeant;
}

function sameText(expected: string, given: string): boolean {
  return timingSafeEqual(digest(expected), digest(given));
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
