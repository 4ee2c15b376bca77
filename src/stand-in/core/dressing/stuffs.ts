/** What the things around the ware are made of. Colours are CIE L*a*b* D50 under the set's light; invented. */
import {
  type Stuff,
  stuffCrumb,
  stuffLeaf,
  stuffLinen,
  stuffPlain,
  stuffStripes,
  stuffWood,
} from '../kernels/stage.ts';
import { labToScene } from '../lab-to-scene.ts';

type Lab = readonly [number, number, number];

interface StuffRecipe {
  readonly texture: number;
  readonly colour: Lab;
  readonly second?: Lab;
  readonly gloss?: number;
  readonly roughness?: number;
  readonly metal?: boolean;
}

function stuff({ texture, colour, second, gloss, roughness, metal }: StuffRecipe): Stuff {
  const linear = (lab: Lab): Float64Array =>
    Float64Array.from(labToScene(lab).map((value) => Math.max(0.005, value)));
  const first = linear(colour);
  const other = linear(second ?? colour);
  return {
    texture,
    colour: first,
    second: other,
    mean: first.map((value, k) => 0.6 * value + 0.4 * (other[k] ?? value)),
    gloss: gloss ?? 0,
    roughness: roughness ?? 0.1,
    metal: metal === true ? 1 : 0,
  };
}

export const oiledOak: Stuff = stuff({
  texture: stuffWood,
  colour: [62, 11, 28],
  second: [38, 14, 26],
  gloss: 0.35,
  roughness: 0.5,
});
export const linen: Stuff = stuff({ texture: stuffLinen, colour: [79, 1, 9] });
export const slateLinen: Stuff = stuff({ texture: stuffLinen, colour: [48, -3, -9] });
export const stripedPrint: Stuff = stuff({
  texture: stuffStripes,
  colour: [91, 0, 4],
  second: [44, 30, 26],
});
export const brushedSteel: Stuff = stuff({
  texture: stuffPlain,
  colour: [80, 1, 5],
  gloss: 1,
  roughness: 0.06,
  metal: true,
});
export const oliveLeaf: Stuff = stuff({
  texture: stuffLeaf,
  colour: [50, -12, 19],
  second: [38, -13, 14],
  gloss: 0.5,
  roughness: 0.25,
});
export const blackCable: Stuff = stuff({
  texture: stuffPlain,
  colour: [17, 0, 0],
  gloss: 0.6,
  roughness: 0.2,
});
export const crumb: Stuff = stuff({ texture: stuffCrumb, colour: [70, 10, 34], second: [45, 16, 30] });
