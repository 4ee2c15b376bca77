/** Quillmere's glazes. Colours are CIE L*a*b* D50 under the set's light; invented. */
import type { Glaze } from '../kernels/stage.ts';
import { labToScene } from '../lab-to-scene.ts';

type Lab = readonly [number, number, number];

interface GlazeRecipe {
  readonly outside: Lab;
  readonly inside: Lab;
  readonly thin: Lab;
  readonly specks?: number;
  readonly glazeFrom?: number;
  readonly gloss?: number;
  readonly roughness?: number;
  readonly rings?: number;
  readonly rim?: number;
  readonly skin?: number;
  readonly run?: number;
  readonly pool?: Lab;
  readonly dip?: { readonly from: number; readonly colour: Lab };
}

const buffClay: Lab = [63, 8, 19];
const ironSpeck: Lab = [27, 9, 13];
const oat: Lab = [85, 1, 11];
const sea: Lab = [43, -17, -11];
const deepSea: Lab = [30, -12, -14];
const rust: Lab = [40, 22, 28];
const ochre: Lab = [66, 13, 40];
const ink: Lab = [24, -1, -5];
const celadon: Lab = [72, -13, 4];

function glaze(recipe: GlazeRecipe): Glaze {
  const colour = (lab: Lab): Float64Array =>
    Float64Array.from(labToScene(lab).map((value) => Math.max(0.005, value)));
  const outside = colour(recipe.outside);
  const dip = colour(recipe.dip?.colour ?? recipe.outside);
  return {
    outside,
    mean: outside.map((value, k) => (value + (dip[k] ?? value)) / 2),
    inside: colour(recipe.inside),
    thin: colour(recipe.thin),
    clay: colour(buffClay),
    speck: colour(ironSpeck),
    specks: recipe.specks ?? 0,
    glazeFrom: recipe.glazeFrom ?? -100,
    gloss: recipe.gloss ?? 1,
    roughness: recipe.roughness ?? 0.03,
    rings: recipe.rings ?? 0.012,
    ringPitch: 7.5,
    rim: recipe.rim ?? 0,
    skin: recipe.skin ?? 0.012,
    run: recipe.run ?? 0.3,
    pool: colour(recipe.pool ?? recipe.outside),
    dipFrom: recipe.dip?.from ?? 0,
    dip,
  };
}

export const glazes: {
  readonly seaOverOat: Glaze;
  readonly sea: Glaze;
  readonly oat: Glaze;
  readonly ochre: Glaze;
  readonly ink: Glaze;
  readonly celadon: Glaze;
} = {
  seaOverOat: glaze({
    outside: oat,
    inside: oat,
    thin: rust,
    specks: 0.42,
    glazeFrom: 9,
    rim: 0.01,
    run: 0.22,
    pool: [66, -6, 2],
    dip: { from: 40, colour: sea },
  }),
  sea: glaze({
    outside: deepSea,
    inside: oat,
    thin: rust,
    specks: 0.06,
    glazeFrom: 13,
    rim: 0.02,
    run: 0.5,
    pool: [19, -7, -13],
  }),
  oat: glaze({
    outside: oat,
    inside: oat,
    thin: rust,
    specks: 0.45,
    glazeFrom: 8,
    rim: 0.01,
    run: 0.35,
    pool: [78, 2, 17],
  }),
  ochre: glaze({
    outside: ochre,
    inside: ochre,
    thin: rust,
    specks: 0.3,
    glazeFrom: 8,
    rim: 0.02,
    run: 0.55,
    pool: [51, 18, 38],
  }),
  ink: glaze({
    outside: ink,
    inside: celadon,
    thin: rust,
    specks: 0.05,
    glazeFrom: 9,
    gloss: 0.8,
    roughness: 0.05,
    rim: 0.016,
    run: 0.3,
    pool: [33, -9, -14],
  }),
  celadon: glaze({
    outside: celadon,
    inside: celadon,
    thin: rust,
    specks: 0.12,
    glazeFrom: 8,
    rim: 0.016,
    run: 0.5,
    pool: [58, -18, 0],
  }),
};
