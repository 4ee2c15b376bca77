import { z } from 'zod';
import { type Parameter, type ParameterName, parameters } from './parameters.ts';

/** A number that has to be said. */
function required(name: ParameterName) {
  const { min, max } = parameters[name];
  return z.number().min(min).max(max).meta({ parameter: name });
}

/** A number that may be left out: then it is neutral, or where a knob starts. */
function number(name: ParameterName) {
  const { neutral, start }: Parameter = parameters[name];
  return required(name).default(neutral ?? start);
}

function triple(name: ParameterName) {
  const { start } = parameters[name];
  return z.tuple([required(name), required(name), required(name)]).default([start, start, start]);
}

/**
 * The characteristic curve: display light over scene light, both linear, drawn on logarithmic axes as in sensitometry.
 * A straight part of slope `gamma` through the pivot, a toe below it, a shoulder above it. The formula stands in curve.ts;
 * `densityRange` in stages/density-range.ts.
 */
export const curveSchema = z
  .strictObject({
    pivot: required('curve.pivot'),
    gamma: required('curve.gamma'),
    toeEv: required('curve.toeEv'),
    shoulder: required('curve.shoulder'),
    whiteEv: required('curve.whiteEv'),
    /** Null: black is no light at all. */
    densityRange: required('curve.densityRange').nullable().default(null),
  })
  .refine((curve) => curve.gamma * curve.whiteEv > Math.log2(1 / curve.pivot), {
    // gamma x whiteEv must exceed log2(1 / pivot): a shoulder can only bend down.
    params: { code: 'look.curve-below-white' },
    path: ['whiteEv'],
  });

/** What the picture's white is. */
const balanceSchema = z.discriminatedUnion('from', [
  /** What the camera wrote down. */
  z.strictObject({ from: z.literal('as-shot') }),
  z.strictObject({
    from: z.literal('temperature'),
    temperatureK: required('balance.temperatureK'),
    duv: number('balance.duv'),
  }),
  /** Something neutral in the picture: its scene light in the working space, balanced as shot. */
  z.strictObject({
    from: z.literal('neutral'),
    rgb: z.tuple([required('balance.rgb'), required('balance.rgb'), required('balance.rgb')]),
  }),
  /** The greys of the target that the frame or its shot was photographed with. */
  z.strictObject({ from: z.literal('target') }),
]);

/** Slope, offset, power and saturation of the ASC CDL, release 1.2. */
export const cdlSchema = z.strictObject({
  slope: triple('cdl.slope'),
  offset: triple('cdl.offset'),
  power: triple('cdl.power'),
  saturation: number('cdl.saturation'),
});

const bandSchema = z.strictObject({
  hueDeg: required('bands.hueDeg'),
  reachDeg: number('bands.reachDeg'),
  lightness: number('bands.lightness'),
  chroma: number('bands.chroma'),
  turnDeg: number('bands.turnDeg'),
});

const weightSchema = z.strictObject({
  hueDeg: required('monochrome.bands.hueDeg'),
  reachDeg: number('monochrome.bands.reachDeg'),
  ev: number('monochrome.bands.ev'),
});

/** A dozen bands of the least reach overlap fully around the circle. */
export const bandsMax = 12;

const monochromeSchema = z.strictObject({
  amount: required('monochrome.amount').default(0),
  bands: z.array(weightSchema).max(bandsMax).default([]),
});

const tintSchema = z.strictObject({
  darkHueDeg: number('tint.darkHueDeg'),
  darkChroma: number('tint.darkChroma'),
  lightHueDeg: number('tint.lightHueDeg'),
  lightChroma: number('tint.lightChroma'),
  crossing: number('tint.crossing'),
});

const lineEnd = required('geometry.lines');
/** x and y of one end, x and y of the other; shares of width and height. */
const lineSchema = z
  .tuple([lineEnd, lineEnd, lineEnd, lineEnd])
  .refine(([x0, y0, x1, y1]) => Math.hypot(x1 - x0, y1 - y0) >= 0.05, {
    params: { code: 'look.line-too-short' },
  });

const geometrySchema = z.strictObject({
  straightenDeg: number('geometry.straightenDeg'),
  /** Two lines that are parallel on the thing that was photographed. */
  lines: z.tuple([lineSchema, lineSchema]).nullable().default(null),
  flip: z.enum(['none', 'left-right', 'top-bottom']).default('none'),
  crop: z
    .strictObject({
      across: required('geometry.crop.across'),
      down: required('geometry.crop.down'),
      size: number('geometry.crop.size'),
      centreX: number('geometry.crop.centreX'),
      centreY: number('geometry.crop.centreY'),
    })
    .nullable()
    .default(null),
});

/**
 * A look, version 2. What is left out is neutral; a parsed look has every member. They stand as one
 * works on them; light takes another way: smoothing and acutance come first, falloff after exposure, density range last of
 * tone and colour, and geometry and grain where the picture is rendered (docs/looks.md).
 */
export const lookSchema = z.strictObject({
  version: z.literal(2),
  title: z.string().trim().min(1).max(80),
  description: z.string().trim().max(400).default(''),
  balance: balanceSchema.default({ from: 'as-shot' }),
  exposureEv: number('exposureEv'),
  falloffEv: number('falloffEv'),
  flare: number('flare'),
  /** Null: scene light is shown as it is, cut at white. */
  curve: curveSchema.nullable().default(null),
  cdl: cdlSchema.prefault({}),
  bands: z.array(bandSchema).max(bandsMax).default([]),
  monochrome: monochromeSchema.prefault({}),
  tint: tintSchema.prefault({}),
  smoothing: z
    .strictObject({ luma: number('smoothing.luma'), chroma: number('smoothing.chroma') })
    .prefault({}),
  acutance: z
    .strictObject({
      widthPx: number('acutance.widthPx'),
      strength: number('acutance.strength'),
      gate: number('acutance.gate'),
    })
    .prefault({}),
  grain: z.strictObject({ sizePx: number('grain.sizePx'), density: number('grain.density') }).prefault({}),
  geometry: geometrySchema.prefault({}),
});

export type Look = z.output<typeof lookSchema>;
/** What may be written: parts that are left out are neutral. */
export type LookInput = z.input<typeof lookSchema>;
export type CharacteristicCurve = z.output<typeof curveSchema>;
export type Balance = z.output<typeof balanceSchema>;
export type Cdl = z.output<typeof cdlSchema>;
export type HueBand = Look['bands'][number];
export type Monochrome = Look['monochrome'];
export type Geometry = Look['geometry'];
export type Tint = Look['tint'];
