import type { ClfLut1d, ClfLut3d } from './clf.ts';
import { halfToNumber } from './half.ts';
import type { ExchangeLimits } from './limits.ts';
import { DocumentProblem } from './problem.ts';
import { assertCount, type DepthScales, readArray } from './read-clf-matrix.ts';
import type { XmlElement } from './xml.ts';

export function readLut1d(step: XmlElement, { outOf }: DepthScales, limits: ExchangeLimits): ClfLut1d {
  const interpolation = step.attributes.get('interpolation') ?? 'linear';
  if (interpolation !== 'linear') {
    throw new DocumentProblem('look.clf-value', {
      node: step.name,
      what: 'interpolation',
      value: interpolation,
    });
  }
  const { dim, values } = readArray(step);
  const [entries = 0, channels] = dim;
  if (entries > limits.entriesMax) {
    throw new DocumentProblem('look.clf-too-large', {
      node: step.name,
      size: entries,
      sizeMax: limits.entriesMax,
    });
  }
  if (dim.length !== 2 || entries < 2 || (channels !== 1 && channels !== 3)) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'dim', value: dim.join(' ') });
  }
  assertCount(step, values, entries * channels);
  const halfDomain = flag(step, 'halfDomain');
  if (halfDomain && entries !== 65_536) {
    throw new DocumentProblem('look.clf-count', { node: step.name, expected: 65_536, found: entries });
  }
  return { kind: 'LUT1D', channels, values: normalised(step, values, outOf), halfDomain };
}

function normalised(step: XmlElement, values: Float64Array, outOf: number): Float64Array {
  if (!flag(step, 'rawHalfs')) return values.map((value) => value / outOf);
  if (!values.every((bits) => Number.isInteger(bits) && bits >= 0 && bits <= 65_535)) {
    throw new DocumentProblem('look.clf-numbers', { node: step.name });
  }
  return values.map(halfToNumber);
}

/** "If this attribute is present, its value must equal true." */
function flag(step: XmlElement, name: string): boolean {
  const value = step.attributes.get(name);
  if (value === undefined) return false;
  if (value !== 'true') throw new DocumentProblem('look.clf-value', { node: step.name, what: name, value });
  return true;
}

export function readLut3d(step: XmlElement, { outOf }: DepthScales, limits: ExchangeLimits): ClfLut3d {
  const interpolation = step.attributes.get('interpolation') ?? 'trilinear';
  if (interpolation !== 'trilinear' && interpolation !== 'tetrahedral') {
    throw new DocumentProblem('look.clf-value', {
      node: step.name,
      what: 'interpolation',
      value: interpolation,
    });
  }
  const { dim, values } = readArray(step);
  const [size = 0, second, third, channels] = dim;
  if (size > limits.latticeMax) {
    throw new DocumentProblem('look.clf-too-large', { node: step.name, size, sizeMax: limits.latticeMax });
  }
  if (dim.length !== 4 || size < 2 || second !== size || third !== size || channels !== 3) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'dim', value: dim.join(' ') });
  }
  assertCount(step, values, size ** 3 * 3);
  return { kind: 'LUT3D', size, values: values.map((value) => value / outOf), interpolation };
}
