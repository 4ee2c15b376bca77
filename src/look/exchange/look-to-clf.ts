import { identityMatrix, type Matrix3, type Vector3 } from '../../colour/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { CurveFunction } from '../curve.ts';
import { fitGamut } from '../fit-gamut.ts';
import { mapKeepingHue } from '../keep-hue.ts';
import { lookSteps, workingLuminance } from '../look-function.ts';
import { lookHash } from '../look-hash.ts';
import { type LookProfile, unknownProfile } from '../profile.ts';
import type { Look } from '../schema.ts';
import type { Stage } from '../stages/stage.ts';
import { lookUpLattice, sampleLattice } from '../table/lattice.ts';
import { displayShaper, type Shaper, stopsOf } from '../table/shaper.ts';
import { compareStages, probeColours, type TableError } from '../table/table-error.ts';
import type { ClfDocument, ClfLog, ClfMatrix, LogParams } from './clf.ts';

export interface ExportedLook {
  readonly document: ClfDocument;
  /** Against the exact formula; null where the document is exact, up to white. */
  readonly error: TableError | null;
  /** Along one edge of the lattice; null where the document has none. */
  readonly nodes: TableNodes | null;
  /** What had to be assumed about the light, since a document knows no frame: codes `look.*`. */
  readonly findings: readonly Finding[];
}

/** Nodes along one edge of a lattice that is handed on. */
export type TableNodes = 33 | 65 | 129;

/**
 * The parts of a look that work point by point as a document of the Common LUT Format: a matrix (balance and exposure), a
 * logarithm with a straight part through zero (the shaper), a lattice, and back to linear light. Unlike `CompiledLook`,
 * the lattice has to hold the curve too, since CLF has no step that keeps hue: so it is the larger one, and its error is
 * stated. Scene-linear Rec.2020 in, display-linear Rec.2020 out.
 */
export function lookToClf(
  look: Look,
  size: TableNodes = 65,
  profile: LookProfile = unknownProfile,
): ExportedLook {
  const { matrix, tone, display, findings } = lookSteps(look, profile);
  const head = {
    id: `look-${lookHash(look).slice(0, 16)}`,
    name: look.title,
    descriptions: look.description === '' ? [] : [look.description],
    inputDescriptor: 'Scene-linear Rec. 2020 (D65), 18 % grey at 0.18',
    outputDescriptor: 'Display-linear Rec. 2020 (D65), white at 1',
  };
  if (tone === null) {
    return { document: { ...head, nodes: [matrixNode(matrix)] }, error: null, nodes: null, findings };
  }
  const into = sceneShaper(tone);
  const shown: Stage = (rgb) => fitGamut(mapKeepingHue(rgb, tone.evaluate), workingLuminance);
  const exact: Stage = display === null ? shown : (rgb) => display(shown(rgb));
  const lattice = sampleLattice(size, into, displayShaper, exact);
  const nodes: ClfDocument['nodes'] = [
    ...(matrix.every((value, index) => value === identityMatrix[index]) ? [] : [matrixNode(matrix)]),
    shaperNode(into, 'cameraLinToLog'),
    { kind: 'LUT3D', size, values: lattice.values, interpolation: 'tetrahedral' },
    shaperNode(displayShaper, 'cameraLogToLin'),
  ];
  probes ??= probeColours(2500);
  const error = compareStages(exact, (rgb) => lookUpLattice(lattice, rgb), probes);
  return { document: { ...head, nodes }, error, nodes: size, findings };
}

let probes: readonly Vector3[] | null = null;

/** From noise below zero to two stops above where the curve reaches white: there colours have gone to white. */
function sceneShaper({ sceneWhite }: CurveFunction): Shaper {
  return { linearEnd: 2 ** -7, low: -(2 ** -9), high: 4 * sceneWhite };
}

function matrixNode([a, b, c, d, e, f, g, h, i]: Matrix3): ClfMatrix {
  return { kind: 'Matrix', rows: Float64Array.of(a, b, c, 0, d, e, f, 0, g, h, i, 0) };
}

/** `shape` and `unshape` in the terms of Academy S-2014-006, whose straight part takes the logarithm's own slope. */
function shaperNode(shaper: Shaper, style: 'cameraLinToLog' | 'cameraLogToLin'): ClfLog {
  const start = stopsOf(shaper, shaper.low);
  const span = stopsOf(shaper, shaper.high) - start;
  const params: LogParams = {
    base: 2,
    logSideSlope: 1 / span,
    logSideOffset: (1 / Math.LN2 - start) / span,
    linSideSlope: 1 / shaper.linearEnd,
    linSideOffset: 0,
    linSideBreak: shaper.linearEnd,
    linearSlope: null,
  };
  return { kind: 'Log', style, params: [params, params, params] };
}
