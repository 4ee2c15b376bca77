import type { Vector3 } from '../../colour/index.ts';
import type { Stage } from '../stages/stage.ts';
import { interpolate } from '../table/lattice.ts';
import { applyCdlStyle } from './apply-clf-cdl.ts';
import { applyExponent, applyLog } from './apply-clf-curves.ts';
import type { ClfDocument, ClfLut1d, ClfLut3d, ClfMatrix, ClfNode, ClfRange } from './clf.ts';
import { halfPosition } from './half.ts';

/** A document as a function of one colour, on the scale of floats. Nothing is clipped but where a step says so. */
export function clfFunction({ nodes }: ClfDocument): Stage {
  return (rgb) => nodes.reduce((colour, node) => applyNode(node, colour), rgb);
}

function applyNode(node: ClfNode, rgb: Vector3): Vector3 {
  switch (node.kind) {
    case 'Matrix':
      return applyRows(node, rgb);
    case 'Range':
      return eachChannel(rgb, (value) => applyRange(node, value));
    case 'LUT1D':
      return eachChannel(rgb, (value, channel) => lookUpLine(node, value, channel));
    case 'LUT3D':
      return node.interpolation === 'tetrahedral'
        ? interpolate(node.values, node.size, rgb)
        : interpolateTrilinear(node, rgb);
    case 'ASC_CDL':
      return applyCdlStyle(node, rgb);
    case 'Log':
      return eachChannel(rgb, (value, channel) => applyLog(node, value, channel));
    case 'Exponent':
      return eachChannel(rgb, (value, channel) => applyExponent(node, value, channel));
  }
}

function eachChannel([r, g, b]: Vector3, f: (value: number, channel: 0 | 1 | 2) => number): Vector3 {
  return [f(r, 0), f(g, 1), f(b, 2)];
}

function applyRows({ rows }: ClfMatrix, [r, g, b]: Vector3): Vector3 {
  const row = (at: number): number =>
    (rows[at] ?? 0) * r + (rows[at + 1] ?? 0) * g + (rows[at + 2] ?? 0) * b + (rows[at + 3] ?? 0);
  return [row(0), row(4), row(8)];
}

function applyRange({ scale, offset, min, max }: ClfRange, value: number): number {
  const out = value * scale + offset;
  return Math.min(max ?? Number.POSITIVE_INFINITY, Math.max(min ?? Number.NEGATIVE_INFINITY, out));
}

/** Linear between the two nearest entries; values beyond 0 … 1 (or the largest half) take the end's. */
function lookUpLine({ values, channels, halfDomain }: ClfLut1d, value: number, channel: number): number {
  const at = (entry: number): number => values[entry * channels + (channels === 3 ? channel : 0)] ?? 0;
  if (halfDomain) {
    const { bits, share } = halfPosition(value);
    return share === 0 ? at(bits) : at(bits) + share * (at(bits + 1) - at(bits));
  }
  const last = values.length / channels - 1;
  const position = Math.min(1, Math.max(0, value)) * last;
  const entry = Math.min(last - 1, Math.floor(position));
  return at(entry) + (position - entry) * (at(entry + 1) - at(entry));
}

/** Academy S-2014-006, appendix A: the eight corners of the cell, each weighted by the volume opposite. */
function interpolateTrilinear({ values, size }: ClfLut3d, rgb: Vector3): Vector3 {
  const [r, g, b] = eachChannel(rgb, (value) => Math.min(1, Math.max(0, value)) * (size - 1));
  const [nodeR, nodeG, nodeB] = eachChannel([r, g, b], (cell) => Math.min(size - 2, Math.floor(cell)));
  const out: [number, number, number] = [0, 0, 0];
  for (let corner = 0; corner < 8; corner++) {
    const [upR, upG, upB] = [corner >> 2, (corner >> 1) & 1, corner & 1];
    const weight = side(r - nodeR, upR) * side(g - nodeG, upG) * side(b - nodeB, upB);
    const at = (((nodeR + upR) * size + nodeG + upG) * size + nodeB + upB) * 3;
    out[0] += weight * (values[at] ?? 0);
    out[1] += weight * (values[at + 1] ?? 0);
    out[2] += weight * (values[at + 2] ?? 0);
  }
  return out;
}

function side(fraction: number, up: number): number {
  return up === 1 ? fraction : 1 - fraction;
}
