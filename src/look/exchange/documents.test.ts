import { expect, test } from 'vitest';
import type { Vector3 } from '../../colour/index.ts';
import { clfFunction } from './apply-clf.ts';
import { halfPosition, halfToNumber } from './half.ts';
import { defaultExchangeLimits } from './limits.ts';
import { readClf } from './read-clf.ts';
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
