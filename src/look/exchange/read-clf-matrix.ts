import type { ClfMatrix, ClfRange } from './clf.ts';
import { DocumentProblem } from './problem.ts';
import { childNamed, numbersIn, type XmlElement } from './xml.ts';

/** What full is in the numbers of a step: 1 for floats, 2^n - 1 for integers. */
export interface DepthScales {
  readonly into: number;
  readonly outOf: number;
}

/** The numbers of a step's Array, with its `dim`. */
export function readArray(step: XmlElement): {
  readonly dim: readonly number[];
  readonly values: Float64Array;
} {
  const array = childNamed(step, 'Array');
  if (array === undefined) throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'Array' });
  const dim = numbersIn(array.attributes.get('dim') ?? '');
  if (dim === null || dim.length === 0 || !dim.every((size) => Number.isInteger(size) && size >= 1)) {
    throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'dim' });
  }
  const values = numbersIn(array.text);
  if (values === null) throw new DocumentProblem('look.clf-numbers', { node: step.name });
  return { dim: [...dim], values };
}

export function assertCount(step: XmlElement, values: ArrayLike<number>, expected: number): void {
  if (values.length !== expected) {
    throw new DocumentProblem('look.clf-count', { node: step.name, expected, found: values.length });
  }
}

/** 3 x 3, or 3 x 4 with offsets; a third size that older versions wrote is passed over. */
export function readMatrix(step: XmlElement, { into, outOf }: DepthScales): ClfMatrix {
  const { dim, values } = readArray(step);
  const [rows, columns] = dim;
  if (rows !== 3 || (columns !== 3 && columns !== 4)) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'dim', value: dim.join(' ') });
  }
  assertCount(step, values, 3 * columns);
  const normal = new Float64Array(12);
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < columns; column++) {
      // Factors turn the one scale into the other; offsets stand on the scale that comes out.
      const scale = column < 3 ? into / outOf : 1 / outOf;
      normal[row * 4 + column] = (values[row * columns + column] ?? 0) * scale;
    }
  }
  return { kind: 'Matrix', rows: normal };
}

/** Academy S-2014-006, Range: two pairs scale (and cut), one pair cuts on its side. */
export function readRange(step: XmlElement, { into, outOf }: DepthScales): ClfRange {
  const style = step.attributes.get('style') ?? 'Clamp';
  if (style !== 'Clamp' && style !== 'noClamp') {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'style', value: style });
  }
  const minIn = limitOf(step, 'minInValue', into);
  const maxIn = limitOf(step, 'maxInValue', into);
  const minOut = limitOf(step, 'minOutValue', outOf);
  const maxOut = limitOf(step, 'maxOutValue', outOf);
  assertPair(step, minIn, minOut, 'minInValue and minOutValue');
  assertPair(step, maxIn, maxOut, 'maxInValue and maxOutValue');
  const cuts = style === 'Clamp';
  if (minIn !== null && maxIn !== null && minOut !== null && maxOut !== null) {
    if (maxIn <= minIn || maxOut < minOut) {
      throw new DocumentProblem('look.clf-value', {
        node: step.name,
        what: 'maxInValue',
        value: maxIn * into,
      });
    }
    const scale = (maxOut - minOut) / (maxIn - minIn);
    const offset = minOut - minIn * scale;
    return { kind: 'Range', scale, offset, min: cuts ? minOut : null, max: cuts ? maxOut : null };
  }
  if (minOut === null && maxOut === null) {
    throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'minInValue' });
  }
  if (!cuts) throw new DocumentProblem('look.clf-value', { node: step.name, what: 'style', value: style });
  return { kind: 'Range', scale: 1, offset: 0, min: minOut, max: maxOut };
}

function limitOf(step: XmlElement, name: string, scale: number): number | null {
  const element = childNamed(step, name);
  if (element === undefined) return null;
  const [value, ...more] = numbersIn(element.text) ?? [];
  if (value === undefined || more.length > 0) {
    throw new DocumentProblem('look.clf-value', {
      node: step.name,
      what: name,
      value: element.text.trim().slice(0, 40),
    });
  }
  return value / scale;
}

/** A one-sided pair has to say the same on both scales. */
function assertPair(step: XmlElement, into: number | null, outOf: number | null, what: string): void {
  if ((into === null) !== (outOf === null))
    throw new DocumentProblem('look.clf-missing', { node: step.name, what });
}
