import { type Look, parameters } from '../../../look/index.ts';
import type { Held } from '../../../words/index.ts';
import { type LookNumber, rangeOf } from '../state/look-number.ts';
import { figure, typedNumber } from './tape-drawing.ts';

/** What becomes of a figure that was typed for a number of a look; `value` null: nothing is turned. */
export function takenFigure(
  look: Look,
  number: LookNumber,
  typed: string,
): { readonly value: number | null; readonly held: Held | null } {
  const value = typedNumber(typed);
  if (value === null) return { value, held: typed.trim() === '' ? null : { code: 'no-number', typed } };
  const { min, step } = parameters[number.name];
  const range = rangeOf(look, number);
  const limit = figure(Math.min(range.max, Math.max(range.min, value)), step);
  if (value > range.max) return { value, held: { code: 'most', limit } };
  if (value >= range.min) return { value, held: null };
  const isCurve = range.min > min;
  return { value, held: isCurve ? { code: 'curve', limit, name: number.name } : { code: 'least', limit } };
}
