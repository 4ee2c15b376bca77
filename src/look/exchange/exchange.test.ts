import { expect, test } from 'vitest';
import { lookFunction } from '../look-function.ts';
import { defaultLook, neutralLook } from '../looks.ts';
import { lookSchema } from '../schema.ts';
import { probeColours } from '../table/table-error.ts';
import { clfFunction } from './apply-clf.ts';
import { type Converted, convertDocument, exportLook, lookOfDocument, tableFindings } from './convert.ts';
import { clfToCorrections, correctionToClf, correctionToLook, lookToCorrection } from './corrections.ts';
import { lookToClf } from './look-to-clf.ts';
import { readCdl } from './read-cdl.ts';
import { readClf } from './read-clf.ts';
import { readDocument } from './read-document.ts';
import { writeClf } from './write-clf.ts';

const list = (inside: string, attributes = 'id="x" compCLFversion="3.0"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<ProcessList ${attributes}>${inside}</ProcessList>`;
const floats = 'inBitDepth="32f" outBitDepth="32f"';
const matrix = `<Matrix ${floats}><Array dim="3 3">1 0 0 0 1 0 0 0 1</Array></Matrix>`;

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
