/** Three numbers in space, mm or without unit. Only where a scene is put together; kernels write theirs out. */
export type Vector = readonly [number, number, number];

export function add(a: Vector, b: Vector): Vector {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

export function scaled(a: Vector, by: number): Vector {
  return [a[0] * by, a[1] * by, a[2] * by];
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function normalised(a: Vector): Vector {
  return scaled(a, 1 / Math.hypot(...a));
}
