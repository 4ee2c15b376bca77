import { binaryHex } from './lossless-binary.ts';
import { type LosslessHead, losslessHead } from './lossless-head.ts';

/** What `assembly/lossless.ts` exports. Addresses are bytes in the memory. */
interface LosslessExports {
  readonly unstuff: (from: number, end: number) => number;
  readonly tables: (counts: number, table: number) => void;
  readonly begin: (state: number, start: number, precision: number) => void;
  readonly scan: (
    state: number,
    end: number,
    tableA: number,
    tableB: number,
    width: number,
    rows: number,
    isSingle: boolean,
    precision: number,
    out: number,
    stride: number,
  ) => number;
}

/** A picture that is stored in pieces, each a JPEG of its own, row by row from the top. */
export interface LosslessPieces {
  readonly widthPx: number;
  readonly heightPx: number;
  /** All of one size; those at the right and the bottom may hang over. */
  readonly pieceWidthPx: number;
  readonly pieceHeightPx: number;
  readonly pieces: readonly Uint8Array[];
}

/**
 * The samples of a picture of one plane in lossless JPEGs, row by row. Null where a piece is of a kind that `losslessHead` does not
 * know, is broken, or is of another size, and where the machine has no WebAssembly SIMD: whoever asked has another decoder.
 * A strip at the bottom may be as low as what is left.
 */
export function decodeLossless(picture: LosslessPieces): Uint16Array<ArrayBuffer> | null {
  const { widthPx, heightPx, pieceWidthPx, pieceHeightPx, pieces } = picture;
  const across = Math.ceil(widthPx / pieceWidthPx);
  if (pieces.length !== across * Math.ceil(heightPx / pieceHeightPx)) return null;
  const heads = pieces.map(losslessHead);
  compiled ??= compile();
  if (compiled === 'absent') return null;
  const at = layOut(picture);
  const memory = memoryOf(at.end);
  if (memory === null) return null;
  const run = exportsOf(new WebAssembly.Instance(compiled, { env: { memory } }));
  const bytes = new Uint8Array(memory.buffer);
  const out = new Uint16Array(memory.buffer, at.out, widthPx * heightPx);
  for (const [index, piece] of pieces.entries()) {
    const head = heads[index] ?? null;
    const left = (index % across) * pieceWidthPx;
    const top = Math.floor(index / across) * pieceHeightPx;
    const rows = Math.min(pieceHeightPx, heightPx - top);
    if (head === null || head.rowSamples !== pieceWidthPx) return null;
    if (head.rows !== pieceHeightPx && head.rows !== rows) return null;
    const isInside = left + pieceWidthPx <= widthPx && head.rows === rows;
    const to = isInside ? at.out + (top * widthPx + left) * 2 : at.spare;
    if (!decodePiece(run, bytes, at, piece, head, to, (isInside ? widthPx : pieceWidthPx) * 2)) return null;
    if (isInside) continue;
    const spare = new Uint16Array(memory.buffer, at.spare, pieceWidthPx * rows);
    const columns = Math.min(pieceWidthPx, widthPx - left);
    for (let row = 0; row < rows; row++) {
      const start = row * pieceWidthPx;
      out.set(spare.subarray(start, start + columns), (top + row) * widthPx + left);
    }
  }
  return out;
}

function decodePiece(
  run: LosslessExports,
  memory: Uint8Array,
  at: Layout,
  piece: Uint8Array,
  { precision, rows, rowSamples, components, tables, scanAt }: LosslessHead,
  to: number,
  stride: number,
): boolean {
  const places = tables.map((table, index) => {
    memory.set(table, at.counts);
    const place = at.tables + index * tableBytes;
    run.tables(at.counts, place);
    return place;
  });
  const [tableA = 0, tableB = tableA] = places;
  memory.set(scanAt === 0 ? piece : piece.subarray(scanAt), at.bytes);
  const end = run.unstuff(at.bytes, at.bytes + piece.length - scanAt);
  const isSingle = components === 1;
  run.begin(at.state, at.bytes, precision);
  for (let row = 0; row < rows; row += rowsAtOnce) {
    const now = Math.min(rowsAtOnce, rows - row);
    const line = to + row * stride;
    const isWell = run.scan(
      at.state,
      end,
      tableA,
      tableB,
      rowSamples,
      now,
      isSingle,
      precision,
      line,
      stride,
    );
    if (isWell !== 1) return false;
  }
  return true;
}

/** Small beside a picture, so that a fresh engine comes soon to compile what it runs; measured: 90 ms of 24 megapixels. */
const rowsAtOnce = 32;

interface Layout {
  /** What a scan goes on from. */
  readonly state: number;
  /** A Huffman table as it is written. */
  readonly counts: number;
  readonly tables: number;
  readonly out: number;
  /** A piece that hangs over. */
  readonly spare: number;
  readonly bytes: number;
  readonly end: number;
}

/** Counts and 256 categories. */
const countsBytes = 512;
const stateBytes = 64;

/** `peekBytes` in assembly/lossless.ts, and two bytes for each of 65,536 codes. */
const tableBytes = (4 << 12) + 2 * 65_536;

/** Bytes come last: a row of a scan that is cut reads four a sample beyond them. */
function layOut({ widthPx, heightPx, pieceWidthPx, pieceHeightPx, pieces }: LosslessPieces): Layout {
  const tables = countsBytes + stateBytes;
  const out = tables + 2 * tableBytes;
  const spare = (out + widthPx * heightPx * 2 + 15) & ~15;
  // What hangs over is at the right or the bottom; most pictures have nothing there.
  const hangs = widthPx % pieceWidthPx !== 0 || heightPx % pieceHeightPx !== 0;
  const bytes = spare + (hangs ? pieceWidthPx * pieceHeightPx * 2 : 0) + 16;
  const longest = pieces.reduce((most, piece) => Math.max(most, piece.length), 0);
  return {
    counts: 0,
    state: countsBytes,
    tables,
    out,
    spare,
    bytes,
    end: bytes + longest + 64 + pieceWidthPx * 4,
  };
}

/** Null where the machine has no room for it. */
function memoryOf(bytes: number): WebAssembly.Memory | null {
  try {
    return new WebAssembly.Memory({ initial: Math.ceil(bytes / 65_536) });
  } catch {
    return null;
  }
}

let compiled: WebAssembly.Module | 'absent' | undefined;

/** A machine without vector instructions, or an engine without WebAssembly, refuses the module. */
function compile(): WebAssembly.Module | 'absent' {
  try {
    return new WebAssembly.Module(binaryBytes());
  } catch {
    return 'absent';
  }
}

/** The module's bytes. */
export function binaryBytes(): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: binaryHex.length / 2 }, (_, index) =>
    Number.parseInt(binaryHex.slice(2 * index, 2 * index + 2), 16),
  );
}

/** The exports are fixed by the committed binary, whose hash a test holds. */
function exportsOf(instance: WebAssembly.Instance): LosslessExports {
  return instance.exports as unknown as LosslessExports;
}
