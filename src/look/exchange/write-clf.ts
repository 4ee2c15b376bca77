import type { ClfDocument, ClfExponent, ClfLog, ClfNode, ClfRange } from './clf.ts';
import { cdlLines } from './write-cdl.ts';
import { escapeXml } from './xml.ts';

/** Writes a document of the Common LUT Format, version 3.0 (Academy S-2014-006), all numbers on the scale of floats. */
export function writeClf(document: ClfDocument): string {
  const name = document.name === '' ? '' : ` name="${escapeXml(document.name)}"`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<ProcessList xmlns="urn:AMPAS:CLF:v3.0" id="${escapeXml(document.id)}"${name} compCLFversion="3.0">`,
    ...document.descriptions.map((text) => `  <Description>${escapeXml(text)}</Description>`),
    ...described('InputDescriptor', document.inputDescriptor),
    ...described('OutputDescriptor', document.outputDescriptor),
    ...document.nodes.flatMap(nodeLines).map((line) => `  ${line}`),
    '</ProcessList>',
    '',
  ].join('\n');
}

function described(element: string, text: string): readonly string[] {
  return text === '' ? [] : [`  <${element}>${escapeXml(text)}</${element}>`];
}

/** A step with what it says about itself: that comes before its numbers. */
function nodeLines(node: ClfNode): readonly string[] {
  const [open = '', ...rest] = numberLines(node);
  return [
    open,
    ...(node.descriptions ?? []).map((text) => `  <Description>${escapeXml(text)}</Description>`),
    ...rest,
  ];
}

function openTag({ kind, id = '', name = '' }: ClfNode, attributes: string): string {
  const own = (attribute: string, value: string): string =>
    value === '' ? '' : ` ${attribute}="${escapeXml(value)}"`;
  return `<${kind}${own('id', id)}${own('name', name)} inBitDepth="32f" outBitDepth="32f"${attributes}>`;
}

function numberLines(node: ClfNode): readonly string[] {
  const open = (attributes = ''): string => openTag(node, attributes);
  const close = `</${node.kind}>`;
  switch (node.kind) {
    case 'Matrix':
      return [open(), ...arrayLines('3 4', node.rows, 4), close];
    case 'Range':
      return [
        open(node.min === null && node.max === null ? ' style="noClamp"' : ''),
        ...rangeLines(node),
        close,
      ];
    case 'LUT1D': {
      const entries = node.values.length / node.channels;
      const lines = arrayLines(`${entries} ${node.channels}`, node.values, node.channels);
      return [open(node.halfDomain ? ' halfDomain="true"' : ''), ...lines, close];
    }
    case 'LUT3D': {
      const { size, values, interpolation } = node;
      return [
        open(` interpolation="${interpolation}"`),
        ...arrayLines(`${size} ${size} ${size} 3`, values, 3),
        close,
      ];
    }
    case 'ASC_CDL':
      return [open(` style="${node.style}"`), ...cdlLines(node.cdl).map((line) => `  ${line}`), close];
    case 'Log':
      return [open(` style="${node.style}"`), ...logLines(node), close];
    case 'Exponent':
      return [open(` style="${node.style}"`), ...exponentLines(node), close];
  }
}

/** A line for each entry, so that a person can read it. Single precision holds 9 digits; what is longer stays exact. */
function arrayLines(dim: string, values: Float64Array | Float32Array, perLine: number): readonly string[] {
  const digits = (value: number): string =>
    values instanceof Float32Array ? String(Number(value.toPrecision(9))) : String(value);
  const lines: string[] = [];
  for (let at = 0; at < values.length; at += perLine) {
    lines.push(`    ${Array.from(values.subarray(at, at + perLine), digits).join(' ')}`);
  }
  return [`  <Array dim="${dim}">`, ...lines, '  </Array>'];
}

/** Both pairs where it scales, else the one that cuts. */
function rangeLines({ scale, offset, min, max }: ClfRange): readonly string[] {
  const pair = (side: 'min' | 'max', into: number, outOf: number): readonly string[] => [
    `  <${side}InValue>${into}</${side}InValue>`,
    `  <${side}OutValue>${outOf}</${side}OutValue>`,
  ];
  if (scale === 1 && offset === 0 && (min === null) !== (max === null)) {
    return min !== null ? pair('min', min, min) : max !== null ? pair('max', max, max) : [];
  }
  // All light onto one value has no way back: any two inputs say so.
  if (scale === 0) return [...pair('min', 0, offset), ...pair('max', 1, offset)];
  const outOf = [min ?? offset, max ?? scale + offset] as const;
  return [
    ...pair('min', (outOf[0] - offset) / scale, outOf[0]),
    ...pair('max', (outOf[1] - offset) / scale, outOf[1]),
  ];
}

const channels = ['R', 'G', 'B'] as const;

function logLines({ style, params }: ClfLog): readonly string[] {
  if (/log(2|10)$/i.test(style)) return [];
  return params.map(
    ({ base, logSideSlope, logSideOffset, linSideSlope, linSideOffset, ...camera }, index) => {
      const straight = [
        ...(camera.linSideBreak === null ? [] : [` linSideBreak="${camera.linSideBreak}"`]),
        ...(camera.linearSlope === null ? [] : [` linearSlope="${camera.linearSlope}"`]),
      ].join('');
      return `  <LogParams channel="${channels[index]}" base="${base}" logSideSlope="${logSideSlope}" logSideOffset="${logSideOffset}" linSideSlope="${linSideSlope}" linSideOffset="${linSideOffset}"${straight}/>`;
    },
  );
}

function exponentLines({ style, params }: ClfExponent): readonly string[] {
  return params.map(({ exponent, offset }, index) => {
    const straight = style.startsWith('mon') ? ` offset="${offset}"` : '';
    return `  <ExponentParams channel="${channels[index]}" exponent="${exponent}"${straight}/>`;
  });
}
