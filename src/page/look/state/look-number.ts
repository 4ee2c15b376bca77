import {
  type Look,
  lookSchema,
  type Parameter,
  type ParameterName,
  parameters,
} from '../../../look/index.ts';

/** One number of a look. `at` is its place among several of its name: a channel, or a band. */
export interface LookNumber {
  readonly name: ParameterName;
  readonly at?: number;
}

/** The steps from the document to the number. Bands are counted, channels are the last step. */
function pathOf({ name, at }: LookNumber): readonly (string | number)[] {
  const parts = name.split('.');
  if (at === undefined) return parts;
  const isBand = name.startsWith('bands.') || name.startsWith('monochrome.bands.');
  return isBand ? [...parts.slice(0, -1), at, ...parts.slice(-1)] : [...parts, at];
}

/** Null where that part of the look is left out. */
export function numberOf(look: Look, number: LookNumber): number | null {
  let value: unknown = look;
  for (const step of pathOf(number)) value = memberOf(value, step);
  return typeof value === 'number' ? value : null;
}

/** Decimals that a number of such a step is shown with. */
export function decimalsOf(step: number): number {
  return Math.max(0, Math.min(4, -Math.floor(Math.log10(step) + 1e-9)));
}

/**
 * Where a number may stand in this look: within its own range, and no lower than the rest of the curve allows. A shoulder
 * can only bend down, which the schema asks as gamma whiteEv > log2(1 / pivot); the least that is above is given in the
 * decimals that are shown.
 */
export function rangeOf(
  { curve }: Look,
  { name }: LookNumber,
): { readonly min: number; readonly max: number } {
  const { min, max, step }: Parameter = parameters[name];
  if (curve === null) return { min, max };
  const { pivot, gamma, whiteEv } = curve;
  const limits: Partial<Record<ParameterName, number>> = {
    'curve.gamma': Math.log2(1 / pivot) / whiteEv,
    'curve.whiteEv': Math.log2(1 / pivot) / gamma,
    'curve.pivot': 2 ** -(gamma * whiteEv),
  };
  const limit = limits[name];
  if (limit === undefined) return { min, max };
  const scale = 10 ** decimalsOf(step);
  return { min: Math.max(min, (Math.floor(limit * scale) + 1) / scale), max };
}

/**
 * The look with another number, held where it may stand and rounded to a hundredth of its knob's step, so that a document
 * holds no tail of digits. What a look may not hold leaves it as it was.
 */
export function withNumber(look: Look, number: LookNumber, value: number): Look {
  const { step }: Parameter = parameters[number.name];
  const { min, max } = rangeOf(look, number);
  const before = numberOf(look, number);
  if (before === null || !Number.isFinite(value)) return look;
  const grain = step / 100;
  const held = Number((Math.round(Math.min(max, Math.max(min, value)) / grain) * grain).toPrecision(8));
  if (held === before) return look;
  const document: unknown = replaced(look, pathOf(number), held);
  return accepted(document, look);
}

/** The look with parts of it replaced, where that is a look; else as it was. */
export function withParts(look: Look, parts: Partial<Look>): Look {
  return accepted({ ...look, ...parts }, look);
}

function accepted(document: unknown, otherwise: Look): Look {
  const parsed = lookSchema.safeParse(document);
  return parsed.success ? parsed.data : otherwise;
}

/** Of these none is at rest by itself: a ratio is two numbers. */
const restless: ReadonlySet<ParameterName> = new Set(['geometry.crop.across', 'geometry.crop.down']);

/** Where the knob does nothing, or, without such a place, where it started; null where neither means anything. */
export function restOf(name: ParameterName): number | null {
  const { neutral, start }: Parameter = parameters[name];
  return restless.has(name) ? null : (neutral ?? start);
}

function replaced(value: unknown, path: readonly (string | number)[], number: number): unknown {
  const [step, ...others] = path;
  if (step === undefined) return number;
  const inner = replaced(memberOf(value, step), others, number);
  if (Array.isArray(value)) return value.map((each: unknown, index) => (index === step ? inner : each));
  return typeof value === 'object' && value !== null ? { ...value, [step]: inner } : value;
}

function memberOf(value: unknown, step: string | number): unknown {
  if (typeof value !== 'object' || value === null) return undefined;
  // Own members only; a path comes from the list of parameters.
  return Object.hasOwn(value, step) ? Reflect.get(value, step) : undefined;
}
