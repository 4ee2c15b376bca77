import { expect, test } from 'vitest';
import type { Vector3 } from '../../colour/index.ts';
import { lookFunction } from '../look-function.ts';
import { defaultLook, neutralLook } from '../looks.ts';
import { lookSchema } from '../schema.ts';
import { probeColours } from '../table/table-error.ts';
import { clfFunction } from './apply-clf.ts';
import { type Converted, convertDocument, exportLook, lookOfDocument, tableFindings } from './convert.ts';
import { clfToCorrections, correctionToClf, correctionToLook, lookToCorrection } from './corrections.ts';
import { halfPosition, halfToNumber } from './half.ts';
import { defaultExchangeLimits } from './limits.ts';
import { lookToClf } from './look-to-clf.ts';
import { readCdl } from './read-cdl.ts';
import { readClf } from './read-clf.ts';
import { readDocument } from './read-document.ts';
import { writeClf } from './write-clf.ts';
import { parseXml } from './xml.ts';

const list = (inside: string, attributes = 'id="x" compCLFversion="3.0"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<ProcessList ${attributes}>${inside}</ProcessList>`;
const floats = 'inBitDepth="32f" outBitDepth="32f"';
const matrix = `<Matrix ${floats}><Array dim="3 3">1 0 0 0 1 0 0 0 1</Array></Matrix>`;

function codeOf(text: string, limits = defaultExchangeLimits): string {
  const read = readClf(text, limits);
  return read.document === null ? (read.findings[0]?.code ?? '') : 'read';
}

test.each([
  ['a document type', `<!DOCTYPE x [<!ENTITY a "b">]>${list(matrix)}`, 'look.xml-doctype'],
  ['an entity of its own', list(`<Description>&a;</Description>${matrix}`), 'look.xml-broken'],
  ['an element that is not closed', list(matrix).replace('</Array>', ''), 'look.xml-broken'],
  ['no element at all', '   ', 'look.xml-broken'],
  ['text after its end', `${list(matrix)}x`, 'look.xml-broken'],
  ['another root', '<Other/>', 'look.clf-no-list'],
  ['no version', list(matrix, 'id="x"'), 'look.clf-missing'],
  ['a version to come', list(matrix, 'id="x" compCLFversion="4.0"'), 'look.clf-version'],
  ['no id', list(matrix, 'compCLFversion="3.0"'), 'look.clf-missing'],
  ['no step', list('<Description>x</Description>'), 'look.clf-no-nodes'],
  ['a step that the format does not know', list(`<Blur ${floats}/>`), 'look.clf-unknown-node'],
  ['a step without a depth', list(matrix.replace('inBitDepth="32f"', '')), 'look.clf-missing'],
  ['a depth there is not', list(matrix.replaceAll('32f', '9i')), 'look.clf-value'],
  [
    'depths that do not meet',
    list(matrix + matrix.replace('inBitDepth="32f"', 'inBitDepth="10i"')),
    'look.clf-depths',
  ],
  ['too few numbers', list(matrix.replace('0 0 1<', '0 0<')), 'look.clf-count'],
  ['words for numbers', list(matrix.replace('1 0 0 0', '1 0 0 x')), 'look.clf-numbers'],
  ['a number that is not finite', list(matrix.replace('1 0 0 0', '1e999 0 0 0')), 'look.clf-numbers'],
  ['a matrix of other sizes', list(matrix.replace('dim="3 3"', 'dim="9 1"')), 'look.clf-value'],
  ['no array', list(`<Matrix ${floats}/>`), 'look.clf-missing'],
  ['a table of one entry', list(`<LUT1D ${floats}><Array dim="1 1">1</Array></LUT1D>`), 'look.clf-value'],
  [
    'a lattice that is no cube',
    list(`<LUT3D ${floats}><Array dim="2 3 2 3">0</Array></LUT3D>`),
    'look.clf-value',
  ],
  [
    'a lattice too large',
    list(`<LUT3D ${floats}><Array dim="130 130 130 3">0</Array></LUT3D>`),
    'look.clf-too-large',
  ],
  ['a table too long', list(`<LUT1D ${floats}><Array dim="65537 1">0</Array></LUT1D>`), 'look.clf-too-large'],
  [
    'half floats that are not all there',
    list(`<LUT1D halfDomain="true" ${floats}><Array dim="2 1">0 1</Array></LUT1D>`),
    'look.clf-count',
  ],
  ['a range of nothing', list(`<Range ${floats}/>`), 'look.clf-missing'],
  ['half a pair', list(`<Range ${floats}><minInValue>0</minInValue></Range>`), 'look.clf-missing'],
  [
    'a logarithm without its break',
    list(`<Log style="cameraLinToLog" ${floats}><LogParams base="2"/></Log>`),
    'look.clf-missing',
  ],
  [
    'a logarithm of base 1',
    list(`<Log style="linToLog" ${floats}><LogParams base="1"/></Log>`),
    'look.clf-value',
  ],
  [
    'a style there is not',
    list(`<Exponent style="basic" ${floats}><ExponentParams exponent="2"/></Exponent>`),
    'look.clf-value',
  ],
  [
    'a power of nothing',
    list(`<Exponent style="basicFwd" ${floats}><ExponentParams exponent="0"/></Exponent>`),
    'look.clf-value',
  ],
  [
    'one channel twice',
    list(
      `<Exponent style="basicFwd" ${floats}><ExponentParams channel="R" exponent="2"/><ExponentParams channel="R" exponent="2"/></Exponent>`,
    ),
    'look.clf-value',
  ],
  [
    'a slope below zero',
    list(
      `<ASC_CDL ${floats}><SOPNode><Slope>-1 1 1</Slope><Offset>0 0 0</Offset><Power>1 1 1</Power></SOPNode></ASC_CDL>`,
    ),
    'look.cdl-value',
  ],
])('a CLF document with %s is refused', (_, text, code) => {
  expect(codeOf(text)).toBe(code);
  expect(codeOf(list(matrix))).toBe('read');
});

test('size, depth and number are bounded, on both sides of each bound', () => {
  const nested = (depth: number): string => list('<a>'.repeat(depth - 1) + '</a>'.repeat(depth - 1));
  expect(codeOf(nested(16))).toBe('look.clf-unknown-node');
  expect(codeOf(nested(17))).toBe('look.xml-too-deep');
  const { nodesMax, attributesMax } = defaultExchangeLimits;
  expect(codeOf(list(matrix.repeat(nodesMax)))).toBe('read');
  expect(codeOf(list(matrix.repeat(nodesMax + 1)))).toBe('look.clf-too-many-nodes');
  const attributes = (count: number): string =>
    list(`<Info ${Array.from({ length: count }, (__, at) => `a${at}="1"`).join(' ')}/>${matrix}`);
  expect(codeOf(attributes(attributesMax))).toBe('read');
  expect(codeOf(attributes(attributesMax + 1))).toBe('look.xml-too-many');
  const limits = { ...defaultExchangeLimits, textCharactersMax: list(matrix).length, elementsMax: 3 };
  expect(codeOf(list(matrix), limits)).toBe('read');
  expect(codeOf(`${list(matrix)} `, limits)).toBe('look.xml-too-long');
  expect(codeOf(list(matrix), { ...limits, elementsMax: 2 })).toBe('look.xml-too-many');
});

test('cut short anywhere, a document is refused and nothing else happens', () => {
  const whole = list(`<Description>a &amp; b</Description>${matrix}`);
  for (let length = 0; length < whole.length; length++) {
    expect(codeOf(whole.slice(0, length))).toMatch(/^look\./);
  }
});

test('prefixes, comments, CDATA and a byte order mark are XML’s, and change nothing', () => {
  const text = `\ufeff<c:ProcessList xmlns:c="urn:AMPAS:CLF:v3.0" id="x" compCLFversion="3.0"><!-- a --><c:Matrix ${floats}><c:Array dim="3 3"><![CDATA[2 0 0 0 2 0]]> 0 0 2</c:Array></c:Matrix></c:ProcessList>`;
  const read = readClf(text);
  expect(read.document === null ? null : clfFunction(read.document)([1, 2, 3])).toEqual([2, 4, 6]);
  expect(parseXml('<a>&lt;&#x41;</a>').text).toBe('<A');
});

test('half floats are those of IEEE 754 binary16', () => {
  // The specification's example: 15360 is 1.0. Others from the format: least subnormal, least normal, largest.
  expect([15_360, 1, 1024, 31_743, 48_128].map(halfToNumber)).toEqual([1, 2 ** -24, 2 ** -14, 65_504, -1]);
  for (const bits of [0, 1, 5, 1023, 1024, 15_359, 15_360, 20_000, 31_743]) {
    expect(halfPosition(halfToNumber(bits))).toEqual({ bits, share: 0 });
  }
  expect(halfPosition(-1.0004882812500002).bits).toBe(48_128);
  expect(halfPosition(1 + 2 ** -11).share).toBeCloseTo(0.5, 12);
  expect(halfPosition(Number.NaN)).toEqual({ bits: 0, share: 0 });
});

test('a table over all half floats is read at any value, below zero too', () => {
  const raw = Array.from({ length: 65_536 }, (__, bits) => bits).join(' ');
  const read = readClf(
    list(`<LUT1D halfDomain="true" rawHalfs="true" ${floats}><Array dim="65536 1">${raw}</Array></LUT1D>`),
  );
  if (read.document === null) throw new Error('it is read');
  const f = clfFunction(read.document);
  // Each half stands for itself: the table is the identity.
  const colours: readonly Vector3[] = [
    [0, 0.18, 1],
    [-0.25, 7.3, -3.333],
    [1e-6, 60_000, 0.0001],
  ];
  for (const colour of colours) {
    f(colour).forEach((value, channel) => {
      expect(value).toBeCloseTo(colour[channel] ?? 0, 6);
    });
  }
});

test('a look that is exported does what it does here, as nearly as it says', () => {
  const look = lookSchema.parse({
    ...defaultLook,
    exposureEv: 0.5,
    cdl: { saturation: 1.1 },
    tint: { darkChroma: 0.02, lightChroma: 0.01 },
  });
  const { document, error } = lookToClf(look, 33);
  const read = readClf(writeClf(document));
  if (read.document === null || error === null) throw new Error('it is read');
  expect(read.document.nodes.map(({ kind }) => kind)).toEqual(['Matrix', 'Log', 'LUT3D', 'Log']);
  const [f, exact] = [clfFunction(read.document), lookFunction(look)];
  const off = probeColours(200).map((rgb) => {
    const [r, g, b] = f(rgb);
    const [R, G, B] = exact(rgb);
    return Math.max(Math.abs(r - R), Math.abs(g - G), Math.abs(b - B));
  });
  expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThan(0.005);
  const finer = lookToClf(look, 65).error;
  expect(finer?.mean).toBeLessThan(error.mean / 2);
  expect(lookToClf(neutralLook)).toMatchObject({ error: null, document: { nodes: [{ kind: 'Matrix' }] } });
});

test('what an exported table cannot hold or had to assume is said, and whether a finer one would be nearer', () => {
  const look = lookSchema.parse({
    ...neutralLook,
    balance: { from: 'temperature', temperatureK: 6200 },
    grain: { density: 0.02 },
    geometry: { straightenDeg: 1 },
  });
  const { findings, nodes } = exportLook(look);
  expect(nodes).toBe(null);
  expect(findings).toEqual([
    { code: 'look.table-left-out', args: { parts: 'grain geometry' } },
    { code: 'look.clf-not-cut', args: {} },
    { code: 'look.no-as-shot-white', args: {} },
  ]);
  expect(exportLook(neutralLook).findings).toEqual([{ code: 'look.clf-not-cut', args: {} }]);
  const off = { mean: 0.2, p999: 1, max: 2 };
  expect(tableFindings(off, 129)).toMatchObject([{ code: 'look.table-off', args: { finerNodes: 129 } }]);
  expect(tableFindings(off, null)[0]?.args).not.toHaveProperty('finerNodes');
});

test('what steps say about themselves is written again; what has no place is named', () => {
  const step = matrix
    .replace('<Matrix', '<Matrix id="m" name="Mat &amp; co"')
    .replace('<Array', '<Description>why</Description><Array');
  const convert = (inside: string): Converted => {
    const document = readDocument(list(inside));
    if (document.kind === null) throw new Error('it is read');
    return convertDocument(document, 'clf', { id: null, title: '' });
  };
  const kept = convert(step);
  expect(kept.findings).toEqual([]);
  const read = readClf(kept.text ?? '');
  expect(read.document?.nodes[0]).toMatchObject({ id: 'm', name: 'Mat & co', descriptions: ['why'] });
  const lossy = convert(`<Info><Application>x</Application></Info>${matrix.replaceAll('32f', '10i')}`);
  expect(lossy.findings).toEqual([{ code: 'look.clf-not-kept', args: { names: 'Info bitDepth' } }]);
});

test('of corrections with one id, or none, each can be asked for by its number', () => {
  const one = (id: string, slope: number): string =>
    `<ColorCorrection id="${id}"><SOPNode><Slope>${slope} 1 1</Slope><Offset>0 0 0</Offset><Power>1 1 1</Power></SOPNode></ColorCorrection>`;
  const document = readDocument(
    `<ColorCorrectionCollection>${one('a', 1)}${one('a', 2)}${one('b', 3)}</ColorCorrectionCollection>`,
  );
  if (document.kind === null) throw new Error('it is read');
  const asked = (id: string | null, number: number | null = null): string | number => {
    const { look, findings } = lookOfDocument(document, { id, number, title: '' });
    return look === null ? `${findings[0]?.code} ${findings[0]?.args.ids ?? ''}` : look.cdl.slope[0];
  };
  expect(asked(null)).toBe('look.several-numbered 1 (a), 2 (a), 3 (b)');
  expect(asked('a')).toBe('look.several-numbered 1 (a), 2 (a)');
  expect([asked('a', 2), asked(null, 1), asked('b')]).toEqual([2, 1, 3]);
  expect(asked(null, 4)).toContain('look.no-correction-number');
  expect(asked('b', 1)).toContain('look.other-correction');
});

test('a refused correction is named, with what its figure may be', () => {
  const of = (slope: string): string =>
    `<ColorCorrection id="x"><SOPNode><Slope>${slope}</Slope><Offset>0 0 0</Offset><Power>1 1 1</Power></SOPNode></ColorCorrection>`;
  const args = (text: string): unknown => {
    const read = readCdl(text);
    return read.document === null ? read.findings[0]?.args : null;
  };
  expect(args(of('-1 1 1'))).toEqual({ what: 'slope', min: 0, max: 16, id: 'x' });
  expect(args(of('1 1'))).toEqual({ what: 'slope', count: 3, id: 'x' });
  expect(
    args(`<ColorCorrectionCollection>${of('1 1 1')}${of('17 1 1')}</ColorCorrectionCollection>`),
  ).toEqual({
    ...{ what: 'slope', min: 0, max: 16, id: 'x', number: 2 },
  });
});

test('a correction becomes a look and comes back exactly; other parts are named, not lost in silence', () => {
  const cdl = lookSchema.parse({
    ...neutralLook,
    cdl: { slope: [1.1, 1 / 3, 0.9], offset: [0.1, 0, -0.02], power: [1, 2, 1e-2], saturation: 0.7 },
  }).cdl;
  const correction = { id: 'a', description: 'b', cdl };
  expect(lookToCorrection(correctionToLook(correction, 'file'))).toEqual({ correction, leftOut: [] });
  expect(correctionToLook({ ...correction, id: ' ' }, 'file').title).toBe('file');
  const more = { ...defaultLook, exposureEv: 1, grain: { ...defaultLook.grain, density: 0.02 } };
  expect(lookToCorrection(more).leftOut).toEqual(['exposureEv', 'curve', 'grain']);
  const read = readClf(writeClf(correctionToClf(correction)));
  expect(read.document === null ? null : clfToCorrections(read.document)).toEqual([correction]);
});

test.each([
  ['another root', '<Other/>', 'look.cdl-no-list'],
  ['no correction', '<ColorCorrectionCollection/>', 'look.cdl-none'],
  ['an empty correction', '<ColorCorrection id="a"/>', 'look.cdl-empty'],
  [
    'two numbers of three',
    '<ColorCorrection><SOPNode><Slope>1 1</Slope><Offset>0 0 0</Offset><Power>1 1 1</Power></SOPNode></ColorCorrection>',
    'look.cdl-value',
  ],
  [
    'a power of zero',
    '<ColorCorrection><SOPNode><Slope>1 1 1</Slope><Offset>0 0 0</Offset><Power>0 1 1</Power></SOPNode></ColorCorrection>',
    'look.cdl-value',
  ],
  ['no saturation in its element', '<ColorCorrection><SatNode/></ColorCorrection>', 'look.cdl-value'],
])('a CDL document with %s is refused', (_, text, code) => {
  const read = readCdl(text);
  expect(read.document === null ? read.findings[0]?.code : 'read').toBe(code);
});

test('what a document is, its content says', () => {
  expect(readDocument(JSON.stringify(defaultLook)).kind).toBe('look');
  expect(readDocument(list(matrix)).kind).toBe('clf');
  expect(
    readDocument('<ColorCorrection><SatNode><Saturation>1</Saturation></SatNode></ColorCorrection>').kind,
  ).toBe('cdl');
  const stranger = readDocument('<svg/>');
  expect(stranger.kind === null ? stranger.findings[0]?.code : '').toBe('look.unknown-document');
  const nothing = readDocument('');
  expect(nothing.kind === null ? nothing.findings[0]?.code : '').toBe('look.no-json');
});
