import { createHash, timingSafeEqual } from 'node:crypto';
import type { Finding } from '../../facts/index.ts';
import type { AdmittedCamera, CameraFolder, Credentials, DoorKeeper } from '../../receive/index.ts';
import { type HardwareOf, isAllowedFrom } from './allowed.ts';
import type { CameraRoster } from './camera-roster.ts';
import type { Camera } from './core/camera.ts';

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
): DoorKeeper {
  return {
    async admit(credentials: Credentials): Promise<AdmittedCamera | null> {
      let found: Camera | null = null;
      for (const camera of roster.all()) {
        const user = sameText(camera.user, credentials.user);
        const password = sameText(camera.password, credentials.password);
        if (user && password) found = camera;
      }
      if (found === null) return null;
      const finding = await whyNot(found, credentials, hardwareOf);
      if (finding !== null) {
        refused(found.name, credentials.address, finding);
        return null;
      }
      return { name: found.name, folder: folderOf(found.name) };
    },
  };
}

async function whyNot(
  { name: camera, ended, protocols, allow }: Camera,
  { address, via }: Credentials,
  hardwareOf: HardwareOf,
): Promise<Finding | null> {
  if (ended) return { code: 'line.camera-ended', args: { camera, address } };
  if (!protocols.includes(via)) return { code: 'line.wrong-door', args: { camera, door: via.toUpperCase() } };
  if (await isAllowedFrom(allow, address, hardwareOf)) return null;
  return { code: 'line.not-allowed-from', args: { camera, address } };
}

function sameText(expected: string, given: string): boolean {
  return timingSafeEqual(digest(expected), digest(given));
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
