/** The camera of a shot as a thin lens before a sensor. */
import { settings } from './camera-model.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { Camera } from './kernels/stage.ts';
import { type CameraPlace, setShots } from './set-list.ts';
import { add, dot, scaled, type Vector } from './vector.ts';

/** Full frame. */
export const sensorWidthMm = 36;

export function cameraFor(shot: ShotName, purpose: FramePurpose, size: FrameSize): Camera {
  return purpose === 'chart' ? chartCamera(size) : cameraOf(setShots[shot].camera, size);
}

/** Width of a pixel in the plane that the camera looks at, mm. */
export function subjectMmPerPx(shot: ShotName, size: FrameSize): number {
  const { forward, pixelMm } = cameraFor(shot, 'picture', size);
  return (pixelMm * setShots[shot].camera.distanceMm) / Math.hypot(...forward);
}

/** A camera on a tripod, level, looking down a little; turned on its side where the orientation says so. */
function cameraOf(place: CameraPlace, size: FrameSize): Camera {
  const angle = (place.elevation * Math.PI) / 180;
  const back: Vector = [0, Math.sin(angle), Math.cos(angle)];
  const upright = place.orientation === 1;
  const sceneRight: Vector = [1, 0, 0];
  const sceneUp: Vector = [0, Math.cos(angle), -Math.sin(angle)];
  // Orientation 6: the sensor's left edge is the picture's top, its top edge the picture's right (Exif 2.32, 0x0112).
  const right = upright ? sceneRight : scaled(sceneUp, -1);
  const down = upright ? scaled(sceneUp, -1) : scaled(sceneRight, -1);
  const toFocus = add(place.focus, scaled(place.lookAt, -1));
  const focusMm = place.distanceMm - dot(toFocus, back);
  return sensorAt(
    add(place.lookAt, scaled(back, place.distanceMm)),
    scaled(back, -1),
    right,
    down,
    size,
    focusMm,
  );
}

function sensorAt(
  eye: Vector,
  forward: Vector,
  right: Vector,
  down: Vector,
  size: FrameSize,
  focusMm: number,
): Camera {
  const pixelMm = sensorWidthMm / size.widthPx;
  const focalMm = settings.focalLengthMm;
  // Thin lens: 1 / image + 1 / object = 1 / focal length.
  const imageMm = (focalMm * focusMm) / (focusMm - focalMm);
  return {
    eye: Float64Array.from(eye),
    forward: Float64Array.from(scaled(forward, imageMm)),
    right: Float64Array.from(scaled(right, pixelMm)),
    down: Float64Array.from(scaled(down, pixelMm)),
    centreX: size.marginPx + size.widthPx / 2,
    centreY: size.marginPx + size.heightPx / 2,
    pixelMm,
    lens: { focalMm, apertureMm: (focalMm * settings.fNumber[1]) / settings.fNumber[0], focusMm },
  };
}

/** The chart frame: straight onto the target, a little wider than it. */
export const chartPlace: {
  readonly centre: Vector;
  readonly eye: Vector;
  readonly focusMm: number;
} = { centre: [0, 200, 0], eye: [0, 200, 390], focusMm: 389 };

function chartCamera(size: FrameSize): Camera {
  return sensorAt(chartPlace.eye, [0, 0, -1], [1, 0, 0], [0, -1, 0], size, chartPlace.focusMm);
}
