/** Textures of what is no ware: wood, linen, a print, a leaf, crumbs. In the thing's own frame, millimetres. */
import { cloud } from './grain.ts';
import { type Stuff, stuffCrumb, stuffLeaf, stuffLinen, stuffStripes, stuffWood } from './stage.ts';

/** One thread and its gap. */
const threadMm = 0.92;

/**
 * Reflectance into `out[0..2]` and how much the surface leans along the own x and along the own third axis into
 * `lean[0..1]` (slopes). `footprintMm` is the width that one pixel takes in: finer texture fades to its mean.
 */
export function stuffAt(
  stuff: Stuff,
  seed: number,
  x: number,
  y: number,
  z: number,
  footprintMm: number,
  out: Float64Array,
  lean: Float64Array,
): void {
  lean[0] = 0;
  lean[1] = 0;
  let share = 0;
  let shade = 1;
  switch (stuff.texture) {
    case stuffWood: {
      const drift = cloud(seed, x * 0.006, z * 0.021, y * 0.02);
      const ring = z * 0.072 + 1.5 * drift + y * 0.05;
      const wave = 0.5 + 0.5 * Math.sin(6.2832 * ring + 0.7 * Math.sin(3 * ring));
      const fine = cloud(seed + 1, x * 0.055, z * 1.9, y * 1.9) * fade(footprintMm, 0.5);
      const pore = cloud(seed + 2, x * 0.16, z * 4.1, y * 4.1) * fade(footprintMm, 0.25);
      share = 0.13 + 0.5 * wave * wave * wave + 0.26 * fine + 0.22 * Math.max(0, pore);
      shade = 1 + 0.1 * cloud(seed + 3, x * 0.02, z * 0.012, 0) + 0.03 * pore;
      lean[1] = 0.05 * pore;
      break;
    }
    case stuffLinen: {
      const sharp = fade(footprintMm, threadMm * 0.5);
      const i = Math.floor(x / threadMm);
      const j = Math.floor(z / threadMm);
      const fx = x / threadMm - i - 0.5;
      const fz = z / threadMm - j - 0.5;
      const warp = cloud(seed, i * 0.73, z * 0.035, 0);
      const weft = cloud(seed + 1, j * 0.73, x * 0.035, 5);
      const over = ((i + j) & 1) === 0;
      const thread = over ? warp : weft;
      const across = over ? fx : fz;
      const along = over ? fz : fx;
      const height = Math.cos(2.7 * across * (1 - 0.2 * thread)) * (0.62 + 0.38 * Math.cos(3.1 * along));
      shade =
        1 + 0.12 * thread + 0.05 * cloud(seed + 2, x * 0.05, z * 0.05, 3) + sharp * 0.42 * (height - 0.56);
      lean[over ? 0 : 1] = 0.75 * sharp * across;
      lean[over ? 1 : 0] = 0.35 * sharp * along;
      break;
    }
    case stuffStripes: {
      const pitch = 9;
      const at = Math.abs(((x / pitch) % 1) + (x < 0 ? 1 : 0) - 0.5) * pitch;
      share = Math.min(1, Math.max(0, (at - pitch * 0.25) / Math.max(0.04, footprintMm) + 0.5));
      shade = 1 + 0.01 * cloud(seed, x * 1.7, z * 1.7, 0);
      break;
    }
    case stuffLeaf:
      share = 0.5 + 0.35 * cloud(seed, x * 0.11, y * 0.11, 0);
      shade = 1 + 0.16 * cloud(seed + 1, x * 0.6, y * 0.6, z);
      lean[0] = 0.1 * cloud(seed + 2, x * 0.35, y * 0.35, 0);
      lean[1] = 0.1 * cloud(seed + 3, x * 0.35, y * 0.35, 0);
      break;
    case stuffCrumb:
      share = 0.5 + 0.5 * cloud(seed, x * 1.4, y * 1.4, z * 1.4);
      shade = 1 + 0.25 * cloud(seed + 1, x * 4, y * 4, z * 4);
      break;
    default:
      break;
  }
  const mixed = share < 0 ? 0 : Math.min(share, 1);
  for (let k = 0; k < 3; k++) {
    out[k] = (stuff.colour[k] + (stuff.second[k] - stuff.colour[k]) * mixed) * Math.max(0.15, shade);
  }
}

/** 1 where a pixel is much finer than the texture, 0 where it is coarser. */
function fade(footprintMm: number, sizeMm: number): number {
  const t = 1.5 - (1.3 * footprintMm) / sizeMm;
  return t < 0 ? 0 : Math.min(t, 1);
}
