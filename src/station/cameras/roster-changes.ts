import { join } from 'node:path';
import { SetsideError } from '../../base/index.ts';
import { changeCameras, newCamera, newPassword, readCameras } from './camera-file.ts';
import { parseAllowRule } from './core/allow-rule.ts';
import {
  allowRulesMax,
  type Camera,
  type CameraAccess,
  cameraNamePattern,
  camerasMax,
  keysMax,
} from './core/camera.ts';
import { changedKeys } from './public-key.ts';

/** The cameras of a home, for a command beside the station. Rejects `bad-settings`. */
export function readCameraFile(home: string): Promise<readonly Camera[]> {
  return readCameras(join(home, 'keys'));
}

/** Adds or changes one camera of a home; gives it after the change. Rejects as the roster does. */
export async function changeCameraFile(
  home: string,
  which: { readonly add: string } | { readonly change: string },
  access: CameraAccess,
): Promise<Camera> {
  const name = 'add' in which ? which.add : which.change;
  const change = 'add' in which ? withAdded : withChanged;
  const cameras = await changeCameras(join(home, 'keys'), (before) => change(before, name, access));
  const camera = cameras.find((entry) => entry.name === name);
  if (camera === undefined) throw noCamera(name, cameras);
  return camera;
}

/** The cameras with one more. Throws what the roster's `add` rejects. */
export function withAdded(cameras: readonly Camera[], name: string, access: CameraAccess): readonly Camera[] {
  if (!cameraNamePattern.test(name)) {
    throw new SetsideError('bad-camera-name', `"${name}" is no name for a camera`, {
      cure: 'Use 1 to 40 letters from a to z, digits and hyphens, such as cam2.',
    });
  }
  // Folders of two cameras must not be one on a disk that does not tell upper case from lower.
  const same = cameras.find((camera) => camera.name.toLowerCase() === name.toLowerCase());
  if (same !== undefined) {
    throw new SetsideError('camera-exists', `there is a camera ${same.name} already`, {
      cure: 'Choose another name, or change that one.',
    });
  }
  if (cameras.length >= camerasMax) {
    throw new SetsideError('too-many-cameras', `there are ${camerasMax} cameras already`);
  }
  return [...cameras, changed(newCamera(name), access)];
}

/** The cameras with one changed. Throws what the roster's `change` rejects. */
export function withChanged(
  cameras: readonly Camera[],
  name: string,
  access: CameraAccess,
): readonly Camera[] {
  if (!cameras.some((camera) => camera.name === name)) throw noCamera(name, cameras);
  return cameras.map((camera) => (camera.name === name ? changed(camera, access) : camera));
}

function changed(camera: Camera, access: CameraAccess): Camera {
  const { newPassword: fresh, addKeys: add = [], dropKeys: drop = [], ...rest } = access;
  const after = {
    ...camera,
    ...rest,
    ...(fresh === true ? { password: newPassword() } : {}),
    keys: changedKeys(camera.keys, { add, drop }),
  };
  const wrong = after.allow.find((rule) => parseAllowRule(rule) === null);
  refuseOpenToAll(after.allow);
  if (wrong !== undefined || after.allow.length > allowRulesMax) {
    throw new SetsideError(
      'bad-allow-rule',
      `"${wrong ?? after.allow.length}" is no address, network or hardware address`,
      {
        cure: 'Write 192.168.7.20, 192.168.7.0/24 or 3c:22:fb:01:02:03; at most 32 of them.',
      },
    );
  }
  if (after.keys.length > keysMax) {
    throw new SetsideError('too-many-keys', `a camera may have ${keysMax} keys`, {
      cure: 'Drop one that is not used any more first.',
    });
  }
  return after;
}

/** A network of every address beside narrower rules: somebody meant to shut out, and would let everybody in. */
function refuseOpenToAll(allow: readonly string[]): void {
  const everywhere = allow.find((rule) => {
    const parsed = parseAllowRule(rule);
    return parsed?.kind === 'network' && parsed.prefixBits === 0;
  });
  if (everywhere === undefined || allow.length === 1) return;
  throw new SetsideError(
    'everywhere-and-more',
    `"${everywhere}" lets every address in, whatever else is allowed`,
    {
      cure: 'Leave it out, or leave all the others out.',
    },
  );
}

/** `cameras`: those there are, by name. */
export function noCamera(name: string, cameras: readonly Camera[]): SetsideError {
  return new SetsideError('no-camera', `there is no camera ${name}`, { cure: thoseThere(cameras) });
}

/** The cameras there are, as a sentence. */
export function thoseThere(cameras: readonly Camera[]): string {
  const names = cameras.map((camera) => camera.name);
  if (names.length === 0) return 'There is none yet.';
  return `${names.length === 1 ? 'There is only' : 'There are'} ${names.join(', ')}.`;
}
