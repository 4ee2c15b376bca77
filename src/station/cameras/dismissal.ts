import type { CameraRoster } from './camera-roster.ts';
import type { Camera } from './core/camera.ts';

/**
 * Sends off, by every door, whoever may not stay: a camera that was ended or got another password. Other changes count
 * from its next log-in on.
 */
export function dismissEnded(
  roster: Pick<CameraRoster, 'onChange'>,
  doors: readonly { dismiss(camera: string): void }[],
): void {
  roster.onChange((before, now) => {
    for (const camera of before) {
      if (mayStay(camera, now)) continue;
      for (const door of doors) door.dismiss(camera.name);
    }
  });
}

function mayStay({ name, password }: Camera, now: readonly Camera[]): boolean {
  return now.some((camera) => camera.name === name && !camera.ended && camera.password === password);
}
