/** Textures from counter-based randomness: clouds and specks. */
import { hash32 } from './hash.ts';

const stepX = 0x1f1f1f1f;
const stepY = 0x2c1b3c6d;
const stepZ = 0x297a2d39;

/**
 * Smooth noise in space, -1 … 1; one lattice cell per unit. Corners are written out and share their products: a pixel of
 * glaze takes ten of these.
 */
export function cloud(seed: number, x: number, y: number, z: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  const fx = ease(x - ix);
  const fy = ease(y - iy);
  const fz = ease(z - iz);
  const x0 = Math.imul(ix, stepX);
  const x1 = Math.imul(ix + 1, stepX);
  const y0 = Math.imul(iy, stepY);
  const y1 = Math.imul(iy + 1, stepY);
  const z0 = Math.imul(iz, stepZ) ^ seed;
  const z1 = Math.imul(iz + 1, stepZ) ^ seed;
  const a = corner(x0 ^ y0 ^ z0);
  const b = corner(x0 ^ y1 ^ z0);
  const c = corner(x0 ^ y0 ^ z1);
  const d = corner(x0 ^ y1 ^ z1);
  const ab = a + (corner(x1 ^ y0 ^ z0) - a) * fx;
  const bb = b + (corner(x1 ^ y1 ^ z0) - b) * fx;
  const cb = c + (corner(x1 ^ y0 ^ z1) - c) * fx;
  const db = d + (corner(x1 ^ y1 ^ z1) - d) * fx;
  const low = ab + (bb - ab) * fy;
  const high = cb + (db - cb) * fy;
  return low + (high - low) * fz;
}

/** A corner's value, -1 … 1: one round of mixing, which an eye cannot tell from three. */
function corner(place: number): number {
  const once = Math.imul(place ^ (place >>> 15), 0x7feb352d);
  return Math.imul(once ^ (once >>> 13), 0x846ca68b) * 4.656_612_9e-10;
}

function ease(t: number): number {
  return t * t * (3 - 2 * t);
}

function lattice(seed: number, x: number, y: number, z: number): number {
  return hash32(seed, (Math.imul(x, stepX) ^ Math.imul(y, stepY) ^ Math.imul(z, stepZ)) | 0);
}

/**
 * How much of a speck covers a point, 0 … 1. Each cell of `cellMm` holds one speck with the given chance, at a random
 * place, mostly small.
 */
export function speck(seed: number, chance: number, cellMm: number, x: number, y: number, z: number): number {
  const u = x / cellMm;
  const v = y / cellMm;
  const w = z / cellMm;
  // A speck is smaller than half a cell, so only the eight cells nearest to the point can reach it.
  const iu = Math.floor(u - 0.5);
  const iv = Math.floor(v - 0.5);
  const iw = Math.floor(w - 0.5);
  let covered = 0;
  for (let corner = 0; corner < 8; corner++) {
    const cu = iu + (corner & 1);
    const cv = iv + ((corner >> 1) & 1);
    const cw = iw + (corner >> 2);
    const dice = lattice(seed, cu, cv, cw);
    if ((dice & 0xfff) >= chance * 0x1000) continue;
    const more = hash32(seed + 1, dice);
    const px = cu + ((dice >>> 12) & 0x3ff) / 1023;
    const py = cv + (dice >>> 22) / 1023;
    const pz = cw + (more & 0x3ff) / 1023;
    const size = (more >>> 10) / 4_194_303;
    const radius = 0.035 + 0.17 * size * size * size;
    const away = Math.sqrt((u - px) * (u - px) + (v - py) * (v - py) + (w - pz) * (w - pz));
    if (away > 1.8 * radius) continue;
    // Iron bleeds into the glaze: no speck is round, and big ones have a soft edge.
    const ragged = radius * (1 + 0.45 * cloud(seed + 2, u * 5, v * 5, w * 5));
    covered = Math.max(covered, Math.min(1, Math.max(0, (ragged - away) / (0.02 + 0.35 * radius) + 0.5)));
  }
  return covered;
}
