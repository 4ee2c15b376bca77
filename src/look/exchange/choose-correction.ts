import type { Finding } from '../../facts/index.ts';
import type { ColorCorrection } from './read-cdl.ts';

/** Corrections that were asked for, at least one, or why there is none. */
export type Corrections =
  | {
      readonly corrections: readonly [ColorCorrection, ...ColorCorrection[]];
      readonly findings: readonly Finding[];
      /** Where each stands in its document, counted from 1. */
      readonly numbers?: readonly number[];
      /** How many the document has. */
      readonly total?: number;
    }
  | { readonly corrections: null; readonly findings: readonly Finding[] };

/** More would not help somebody who reads them. */
const namedMax = 10;

/**
 * Those of a document that an id or a number asks for, all where neither does. Findings: `none`,
 * `look.no-such-correction`, `look.no-correction-number`, `look.other-correction`.
 */
export function chosenCorrections(
  all: readonly ColorCorrection[],
  { id, number = null }: { readonly id: string | null; readonly number?: number | null },
  none: Finding,
): Corrections {
  if (all.length === 0) return { corrections: null, findings: [none] };
  const wanted = all
    .map((correction, at) => ({ correction, at: at + 1 }))
    .filter(
      ({ correction, at }) => (id === null || correction.id === id) && (number === null || at === number),
    );
  const [first, ...more] = wanted.map(({ correction }) => correction);
  if (first !== undefined) {
    return {
      corrections: [first, ...more],
      findings: [],
      numbers: wanted.map(({ at }) => at),
      total: all.length,
    };
  }
  return { corrections: null, findings: [missing(all.length, id ?? '', number)] };
}

function missing(corrections: number, id: string, number: number | null): Finding {
  if (number === null) return { code: 'look.no-such-correction', args: { id } };
  return number > corrections
    ? { code: 'look.no-correction-number', args: { number, corrections } }
    : { code: 'look.other-correction', args: { number, id } };
}

/** The one of them, or what to say where there are several: by what it can be asked for. */
export function theOne({
  corrections,
  numbers = [],
  total = corrections.length,
}: Extract<Corrections, { readonly numbers?: readonly number[] }>):
  | { readonly correction: ColorCorrection; readonly several: null }
  | { readonly correction: null; readonly several: Finding } {
  const [first, ...more] = corrections;
  if (more.length === 0) return { correction: first, several: null };
  const ids = corrections.map(({ id }) => id);
  const areTold = ids.every((id, at) => id !== '' && ids.indexOf(id) === at);
  const names = areTold ? ids : ids.map((id, at) => `${numbers[at] ?? at + 1}${id === '' ? '' : ` (${id})`}`);
  const shown = names.slice(0, namedMax).join(', ');
  const args = {
    corrections: corrections.length,
    total,
    ids: shown,
    more: Math.max(0, names.length - namedMax),
  };
  return {
    correction: null,
    several: { code: areTold ? 'look.several-corrections' : 'look.several-numbered', args },
  };
}
