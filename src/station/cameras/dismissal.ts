import type { DismissReason } from '../../receive/index.ts';
import type { CameraRoster } from './camera-roster.ts';
import type { Camera } from './core/camera.ts';

/** A door that can send a camera off. */
export interface Dismisses {
  dismiss(camera: string, why: DismissReason): void;
}

/**
 * Sends off whoever may not stay: by every door a camera that was ended or got another password, by the door that takes
 * keys one that lost a key, since nobody can tell any more by which it came. Other changes count from its next log-in on.
 */
export function dismissEnded(
  roster: Pick<CameraRoster, 'onChange'>,
  doors: readonly Dismisses[],
  keyDoor: Dismisses,
): void {
  roster.onChange((before, now) => {
    for (const camera of before) {
      const why = whyNotStay(camera, now);
      if (why === 'key-dropped') keyDoor.dismiss(camera.name, why);
      else if (why !== null) for (const door of doors) door.dismiss(camera.name, why);
    }
  });
}

function whyNotStay({ name, password, keys }: Camera, now: readonly Camera[]): DismissReason | null {
  const after = now.find((camera) => camera.name === name);
  if (after === undefined || after.ended) return 'ended';
  if (after.password !== password) return 'new-password';
  return keys.every((key) => after.keys.includes(key)) ? null : 'key-dropped';
}
