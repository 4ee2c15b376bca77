import type { ClfDocument, ClfNode, ClfStep } from './clf.ts';
import { defaultExchangeLimits, type ExchangeLimits } from './limits.ts';
import { attempt, DocumentProblem, type ReadDocument } from './problem.ts';
import { readCdlNode } from './read-clf-cdl.ts';
import { readExponent, readLog } from './read-clf-curves.ts';
import { readLut1d, readLut3d } from './read-clf-luts.ts';
import { type DepthScales, readMatrix, readRange } from './read-clf-matrix.ts';
import { childNamed, childrenNamed, parseXml, type XmlElement } from './xml.ts';

/** Reads a document of the Common LUT Format, version 3.0 or below. Findings: `look.xml-*`, `look.clf-*`. */
export function readClf(
  text: string,
  limits: ExchangeLimits = defaultExchangeLimits,
): ReadDocument<ClfDocument> {
  return attempt(() => clfOf(parseXml(text, limits), limits));
}

/** Elements of a ProcessList that are no steps. */
const notes: ReadonlySet<string> = new Set([
  'Description',
  'InputDescriptor',
  'OutputDescriptor',
  'Info',
  'Id',
]);

export function clfOf(root: XmlElement, limits: ExchangeLimits): ClfDocument {
  if (root.name !== 'ProcessList') throw new DocumentProblem('look.clf-no-list', { found: root.name });
  assertVersion(root.attributes.get('compCLFversion'));
  const id = root.attributes.get('id') ?? childNamed(root, 'Id')?.text.trim();
  if (id === undefined) throw new DocumentProblem('look.clf-missing', { node: 'ProcessList', what: 'id' });
  const steps = root.children.filter(({ name }) => !notes.has(name));
  if (steps.length === 0) throw new DocumentProblem('look.clf-no-nodes');
  if (steps.length > limits.nodesMax) {
    throw new DocumentProblem('look.clf-too-many-nodes', { nodesMax: limits.nodesMax });
  }
  assertDepthsMeet(steps);
  return {
    id,
    name: root.attributes.get('name') ?? '',
    descriptions: childrenNamed(root, 'Description').map(({ text }) => text.trim()),
    inputDescriptor: childNamed(root, 'InputDescriptor')?.text.trim() ?? '',
    outputDescriptor: childNamed(root, 'OutputDescriptor')?.text.trim() ?? '',
    nodes: steps.map((step) => ({ ...nodeOf(step, limits), ...aboutStep(step) })),
    notKept: notKeptOf(root, steps),
  };
}

/** What a step says about itself; nothing where it says nothing. */
function aboutStep(step: XmlElement): ClfStep {
  const id = step.attributes.get('id') ?? '';
  const name = step.attributes.get('name') ?? '';
  const descriptions = childrenNamed(step, 'Description').map(({ text }) => text.trim());
  return {
    ...(id === '' ? {} : { id }),
    ...(name === '' ? {} : { name }),
    ...(descriptions.length === 0 ? {} : { descriptions }),
  };
}

/** What `ClfDocument` has no place for. Depths are taken out with their scale: what is written is floats. */
function notKeptOf(root: XmlElement, steps: readonly XmlElement[]): readonly string[] {
  const isDeep = (step: XmlElement): boolean =>
    ['inBitDepth', 'outBitDepth'].some((which) => step.attributes.get(which) !== '32f');
  return [
    ...(childNamed(root, 'Info') === undefined ? [] : ['Info']),
    ...(root.attributes.has('inverseOf') ? ['inverseOf'] : []),
    ...(steps.some(isDeep) ? ['bitDepth'] : []),
  ];
}

function assertVersion(version: string | undefined): void {
  if (version === undefined) {
    throw new DocumentProblem('look.clf-missing', { node: 'ProcessList', what: 'compCLFversion' });
  }
  const [, major] = /^(\d{1,3})(\.\d{1,3}){0,2}$/.exec(version.trim()) ?? [];
  if (major === undefined || Number(major) < 1 || Number(major) > 3) {
    throw new DocumentProblem('look.clf-version', { version });
  }
}

type ReadNode = (step: XmlElement, depths: DepthScales, limits: ExchangeLimits) => ClfNode;

const readers: ReadonlyMap<string, ReadNode> = new Map<string, ReadNode>([
  ['Matrix', readMatrix],
  ['Range', readRange],
  ['LUT1D', readLut1d],
  ['LUT3D', readLut3d],
  ['ASC_CDL', readCdlNode],
  ['Log', readLog],
  ['Exponent', readExponent],
]);

function nodeOf(step: XmlElement, limits: ExchangeLimits): ClfNode {
  const read = readers.get(step.name);
  if (read === undefined)
    throw new DocumentProblem('look.clf-unknown-node', { node: step.name.slice(0, 40) });
  const depths = { into: depthScale(step, 'inBitDepth'), outOf: depthScale(step, 'outBitDepth') };
  return read(step, depths, limits);
}

/** Academy S-2014-006, "Conversion between integer and normalized float scaling". */
const scales: ReadonlyMap<string, number> = new Map([
  ['8i', 255],
  ['10i', 1023],
  ['12i', 4095],
  ['16i', 65_535],
  ['16f', 1],
  ['32f', 1],
]);

function depthScale(step: XmlElement, which: 'inBitDepth' | 'outBitDepth'): number {
  const depth = step.attributes.get(which);
  if (depth === undefined) throw new DocumentProblem('look.clf-missing', { node: step.name, what: which });
  const scale = scales.get(depth);
  if (scale === undefined)
    throw new DocumentProblem('look.clf-value', { node: step.name, what: which, value: depth });
  return scale;
}

/** "The inBitDepth of a ProcessNode must match the outBitDepth of the preceding ProcessNode." */
function assertDepthsMeet(steps: readonly XmlElement[]): void {
  steps.forEach((step, index) => {
    const before = steps[index - 1]?.attributes.get('outBitDepth');
    const into = step.attributes.get('inBitDepth');
    if (before !== undefined && into !== undefined && before !== into) {
      throw new DocumentProblem('look.clf-depths', { node: step.name, before, into });
    }
  });
}
