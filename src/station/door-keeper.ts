import { createHash, timingSafeEqual } from 'node:crypto';
import type { AdmittedCamera, CameraFolder, Credentials, DoorKeeper } from '../receive/index.ts';
import type { Camera } from './cameras.ts';

/**
 * Lets a camera in by its user and password. Both are compared as digests in constant time and for every camera,
 * so that neither the answer nor its delay tells a wrong user from a wrong password (RFC 2577 section 7).
 */
export function keepDoor(cameras: readonly Camera[], folderOf: (camera: string) => CameraFolder): DoorKeeper {
  return {
    async admit(credentials: Credentials): Promise<AdmittedCamera | null> {
      let admitted: Camera | null = null;
      for (const camera of cameras) {
        const user = sameText(camera.user, credentials.user);
        const password = sameText(camera.password, credentials.password);
        if (user && password) admitted = camera;
      }
      return admitted === null ? null : { name: admitted.name, folder: folderOf(admitted.name) };
    },
  };
}

function sameText(expected: string, given: string): boolean {
  return timingSafeEqual(digest(expected), digest(given));
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
