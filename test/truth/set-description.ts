/** The set as plain data: what `set.json` must say, and all that `stand_in_truth.py` is told. */
import { settings } from '../../src/stand-in/core/camera-model.ts';
import { chartPatches } from '../../src/stand-in/core/chart-patches.ts';
import { shotNames } from '../../src/stand-in/core/frame-plan.ts';
import { chartPlace, sensorWidthMm } from '../../src/stand-in/core/set-camera.ts';
import { lensSigmaPx } from '../../src/stand-in/core/set-facts.ts';
import { lightPlaces } from '../../src/stand-in/core/set-lights.ts';
import { setShots } from '../../src/stand-in/core/set-list.ts';
import { backdrop, roomLight } from '../../src/stand-in/core/set-room.ts';
import {
  cardHalf,
  cardLean,
  cardLiftMm,
  patchPitchMm,
  patchSideMm,
} from '../../src/stand-in/core/set-target.ts';
import * as shapes from '../../src/stand-in/core/ware/shapes.ts';

const wareShapes = Object.entries(shapes).filter(([, shape]) => typeof shape === 'object');

export function describeSet(): unknown {
  // Through JSON, as the file is: numbers and nothing else.
  const nameOf = (shape: unknown): string => wareShapes.find(([, one]) => one === shape)?.[0] ?? '';
  return {
    lens: {
      focalMm: settings.focalLengthMm,
      fNumber: settings.fNumber[0] / settings.fNumber[1],
      sensorWidthMm,
      sigmaPx: lensSigmaPx,
    },
    lights: lightPlaces.map(({ samples, ...light }) => light),
    room: {
      paper: backdrop.albedo[1],
      glow: roomLight[1],
      frontMm: backdrop.frontMm,
      sideMm: backdrop.sideMm,
      fadeMm: backdrop.fadeMm,
    },
    target: {
      halfMm: cardHalf,
      leanDegrees: cardLean,
      liftMm: cardLiftMm,
      pitchMm: patchPitchMm,
      sideMm: patchSideMm,
    },
    chart: chartPlace,
    patches: chartPatches.map(({ labD50 }) => labD50),
    shapes: Object.fromEntries(wareShapes),
    shots: Object.fromEntries(
      shotNames.map((name) => {
        const { camera, target, pieces } = setShots[name];
        return [
          name,
          {
            camera,
            target,
            pieces: pieces.map(({ shape, x, y, z, turn }) => ({ shape: nameOf(shape), x, y, z, turn })),
          },
        ];
      }),
    ),
  };
}
