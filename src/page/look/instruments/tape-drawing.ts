import { decimalsOf } from '../state/look-number.ts';

/** One line of a rule that runs under a fixed index. */
export interface TapeLine {
  /** From the index, steps of the knob. */
  readonly steps: number;
  readonly kind: 'small' | 'middle' | 'large';
  /** What stands at a large line. */
  readonly text: string;
}

/** How a rule is divided. */
export interface TapeScale {
  /** Units of the drawing for one step. */
  readonly perStep: number;
  /** Steps between lines, and between figures. */
  readonly perLine: number;
  readonly perFigure: number;
  /** Pixels that a hand draws it along for one step. */
  readonly gripCssPx: number;
}

/** A figure nearer than this to the ends of what is seen would be cut through, units of the drawing. */
const figureReach = 18;

const fine: TapeScale = { perStep: 3, perLine: 5, perFigure: 20, gripCssPx: 4 };
/** Each step is one that somebody means: it has its line, every fifth a figure, and there is room to aim at it. */
const whole: TapeScale = { perStep: 10, perLine: 1, perFigure: 5, gripCssPx: 12 };

/** Numbers that are counted, as those of a ratio, and not turned until it looks right. */
export function tapeScale({ unit, step }: { readonly unit: string; readonly step: number }): TapeScale {
  return unit === 'factor' && step === 1 ? whole : fine;
}

/** The lines of the rule in sight about a value, out to `reachUnits` on both sides; none beyond the ends of the range. */
export function tapeLines(
  value: number,
  { min, max, step }: { readonly min: number; readonly max: number; readonly step: number },
  { perStep, perLine, perFigure }: TapeScale,
  reachUnits: number,
): readonly TapeLine[] {
  const at = value / step;
  const reach = reachUnits / perStep;
  const first = Math.ceil((at - reach) / perLine);
  const last = Math.floor((at + reach) / perLine);
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * perLine)
    .filter((steps) => steps * step >= min - step / 2 && steps * step <= max + step / 2)
    .map((steps) => ({
      steps: steps - at,
      kind: steps % perFigure === 0 ? 'large' : steps % (perLine * 2) === 0 ? 'middle' : 'small',
      text:
        steps % perFigure === 0 && Math.abs(steps - at) <= reach - figureReach / perStep
          ? figure(steps * step, step)
          : '',
    }));
}

/** A number with as many decimals as its step has. */
export function figure(value: number, step: number): string {
  const decimals = decimalsOf(step);
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text.replace('-', '−');
}

const fraction = /^(?<sign>[+-]?)(?:(?<whole>\d+) )?(?<part>\d+)\/(?<of>\d+)$/;

/** What somebody typed; null for no number. A comma is a point, a long minus a minus; fractions as on a light meter. */
export function typedNumber(text: string): number | null {
  const plain = text.trim().replace('−', '-').replace(',', '.');
  const parts = fraction.exec(plain)?.groups;
  const value =
    parts === undefined
      ? Number(plain)
      : (parts.sign === '-' ? -1 : 1) * (Number(parts.whole ?? 0) + Number(parts.part) / Number(parts.of));
  return plain === '' || !Number.isFinite(value) ? null : value;
}
