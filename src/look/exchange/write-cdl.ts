import type { Cdl } from '../schema.ts';
import type { ColorCorrection } from './read-cdl.ts';
import { escapeXml } from './xml.ts';

/** One correction, a collection, or a list of decisions; each by the name its file's extension has. */
export type CdlKind = 'cc' | 'ccc' | 'cdl';

/** Writes an ASC CDL document (release 1.2). Numbers are written so that they are read back exactly. */
export function writeCdl(
  kind: CdlKind,
  corrections: readonly [ColorCorrection, ...ColorCorrection[]],
): string {
  const namespace = ' xmlns="urn:ASC:CDL:v1.01"';
  const head = '<?xml version="1.0" encoding="UTF-8"?>\n';
  switch (kind) {
    case 'cc':
      return head + correction(corrections[0], '', namespace);
    case 'ccc':
      return `${head}<ColorCorrectionCollection${namespace}>\n${corrections.map((each) => correction(each, '  ')).join('')}</ColorCorrectionCollection>\n`;
    case 'cdl':
      return `${head}<ColorDecisionList${namespace}>\n${corrections
        .map((each) => `  <ColorDecision>\n${correction(each, '    ')}  </ColorDecision>\n`)
        .join('')}</ColorDecisionList>\n`;
  }
}

function correction({ id, description, cdl }: ColorCorrection, indent: string, namespace = ''): string {
  const lines = [
    `<ColorCorrection${namespace}${id === '' ? '' : ` id="${escapeXml(id)}"`}>`,
    ...(description === '' ? [] : [`  <Description>${escapeXml(description)}</Description>`]),
    ...cdlLines(cdl).map((line) => `  ${line}`),
    '</ColorCorrection>',
  ];
  return lines.map((line) => `${indent}${line}\n`).join('');
}

/** The two elements that hold the numbers, here and in a step of CLF. */
export function cdlLines({ slope, offset, power, saturation }: Cdl): readonly string[] {
  return [
    '<SOPNode>',
    `  <Slope>${slope.join(' ')}</Slope>`,
    `  <Offset>${offset.join(' ')}</Offset>`,
    `  <Power>${power.join(' ')}</Power>`,
    '</SOPNode>',
    '<SatNode>',
    `  <Saturation>${saturation}</Saturation>`,
    '</SatNode>',
  ];
}
