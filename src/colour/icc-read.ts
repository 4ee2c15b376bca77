import { type Matrix3, matrixOfColumns, type Vector3 } from './matrix.ts';

/** What is asked of a profile before a picture is written in it. */
export interface IccProfileFacts {
  /** Major version, 2 or 4. */
  readonly version: number;
  /** `mntr` display, `prtr` output, `scnr` input, `spac` colour space, `link`, `abst`, `nmcl`, as written. */
  readonly profileClass: string;
  /** `RGB `, `GRAY`, `CMYK` …, as written. */
  readonly colourSpace: string;
  /** `XYZ ` or `Lab `, as written. */
  readonly connectionSpace: string;
  /**
   * Linear RGB to XYZ of the connection space (D50), where the profile is three colourants with three curves and no table
   * says otherwise; null for all others.
   */
  readonly matrix: Matrix3 | null;
}

/** Profiles hold some 20 tags, and up to 60 where a maker adds some of its own. */
const tagsMax = 200;
const headerBytes = 128;

/**
 * The header and colourants of an ICC profile (ICC.1:2022, 7.2, 7.3, 9.2), or null where the bytes are none: too short, no
 * signature, or tags that lie outside the size it states. Nothing else is read; whether its tables are sound, littleCMS
 * finds out.
 */
export function readIccProfile(bytes: Uint8Array): IccProfileFacts | null {
  if (bytes.length < headerBytes + 4) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const size = view.getUint32(0);
  if (asciiAt(view, 36) !== 'acsp' || size < headerBytes + 4 || size > bytes.length) return null;
  const tags = readTags(view, size);
  if (tags === null) return null;
  return {
    version: view.getUint8(8),
    profileClass: asciiAt(view, 12),
    colourSpace: asciiAt(view, 16),
    connectionSpace: asciiAt(view, 20),
    matrix: colourants(view, tags),
  };
}

type Tags = ReadonlyMap<string, { readonly offset: number; readonly bytes: number }>;

function readTags(view: DataView, size: number): Tags | null {
  const count = view.getUint32(headerBytes);
  if (count > tagsMax || headerBytes + 4 + 12 * count > size) return null;
  const tags = new Map<string, { offset: number; bytes: number }>();
  for (let index = 0; index < count; index++) {
    const at = headerBytes + 4 + 12 * index;
    const offset = view.getUint32(at + 4);
    const bytes = view.getUint32(at + 8);
    if (offset + bytes > size) return null;
    tags.set(asciiAt(view, at), { offset, bytes });
  }
  return tags;
}

/** Tables go before colourants where a profile has both (ICC.1:2022, 9.1, table 26). */
const tableTags = ['A2B0', 'A2B1', 'B2A0', 'B2A1', 'D2B0', 'D2B1', 'B2D0', 'B2D1'];

function colourants(view: DataView, tags: Tags): Matrix3 | null {
  if (tableTags.some((name) => tags.has(name))) return null;
  if (!['rTRC', 'gTRC', 'bTRC'].every((name) => tags.has(name))) return null;
  const [red, green, blue] = ['rXYZ', 'gXYZ', 'bXYZ'].map((name) => xyzOf(view, tags, name));
  return red == null || green == null || blue == null ? null : matrixOfColumns(red, green, blue);
}

/** XYZType (ICC.1:2022, 10.31): signature, four zeros, three s15Fixed16Numbers. */
function xyzOf(view: DataView, tags: Tags, name: string): Vector3 | null {
  const tag = tags.get(name);
  if (tag === undefined || tag.bytes < 20 || asciiAt(view, tag.offset) !== 'XYZ ') return null;
  const at = (index: number): number => view.getInt32(tag.offset + 8 + 4 * index) / 65_536;
  return [at(0), at(1), at(2)];
}

function asciiAt(view: DataView, offset: number): string {
  return String.fromCharCode(...[0, 1, 2, 3].map((index) => view.getUint8(offset + index)));
}
