import type { Vector3 } from '../../colour/index.ts';

/** A step on one colour: display light in, display light out, both linear Rec.2020, 1 = white. */
export type Stage = (rgb: Vector3) => Vector3;
