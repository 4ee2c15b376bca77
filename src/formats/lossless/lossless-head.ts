/** A lossless JPEG of the kind that DNG writers make, up to its entropy-coded bytes. */
export interface LosslessHead {
  /** Bits of a sample, 2 … 16. */
  readonly precision: number;
  readonly rows: number;
  /** Columns times components: samples of a row, as they lie one behind the other. */
  readonly rowSamples: number;
  readonly components: 1 | 2;
  /** For each component the Huffman table as it is written (B.2.4.2): 16 counts and the categories behind them. */
  readonly tables: readonly Uint8Array[];
  /** Where the entropy-coded bytes begin. */
  readonly scanAt: number;
}

const marker = { soi: 0xd8, frame: 0xc3, tables: 0xc4, restart: 0xdd, scan: 0xda } as const;

/** Before the scan stand two or three segments; a writer's own word may be beside them. */
const segmentsMax = 32;

/**
 * The head of a lossless JPEG (ITU-T T.81, process SOF3) with predictor 1, one or two components that are sampled alike, an even
 * number of samples in a row, no restarts, no point transform. Null for any other and for anything broken: whoever asked
 * has a decoder that knows more kinds.
 */
export function losslessHead(bytes: Uint8Array): LosslessHead | null {
  const byte = (at: number): number => bytes[at] ?? 0;
  const word = (at: number): number => byte(at) * 256 + byte(at + 1);
  if (word(0) !== 0xff00 + marker.soi) return null;
  const tables = new Map<number, Uint8Array>();
  let frame: Frame | null = null;
  let at = 2;
  for (let segment = 0; segment < segmentsMax; segment++) {
    const length = word(at + 2);
    const body = bytes.subarray(at + 4, at + 2 + length);
    if (byte(at) !== 0xff || length < 2 || body.length !== length - 2) return null;
    at += 2 + length;
    switch (byte(at - 1 - length)) {
      case marker.frame:
        frame = readFrame(body);
        if (frame === null) return null;
        break;
      case marker.tables:
        if (!readTables(body, tables)) return null;
        break;
      case marker.restart:
        return null;
      case marker.scan:
        return frame === null ? null : headOf(frame, body, tables, at);
    }
  }
  return null;
}

interface Frame {
  readonly precision: number;
  readonly rows: number;
  readonly columns: number;
  readonly ids: readonly number[];
}

/** B.2.2. */
function readFrame(body: Uint8Array): Frame | null {
  const [precision = 0, highY = 0, lowY = 0, highX = 0, lowX = 0, count = 0] = body;
  const rows = highY * 256 + lowY;
  const columns = highX * 256 + lowX;
  if (precision < 2 || precision > 16 || rows === 0 || columns === 0) return null;
  if ((count !== 1 && count !== 2) || body.length !== 6 + 3 * count) return null;
  const parts = Array.from({ length: count }, (_, index) => body.subarray(6 + 3 * index, 9 + 3 * index));
  if (parts.some(([, sampling]) => sampling !== 0x11)) return null;
  return { precision, rows, columns, ids: parts.map(([id = 0]) => id) };
}

/** B.2.4.2; false where a table is none. */
function readTables(body: Uint8Array, tables: Map<number, Uint8Array>): boolean {
  let at = 0;
  while (at < body.length) {
    const counts = body.subarray(at + 1, at + 17);
    const symbols = counts.reduce((sum, count) => sum + count, 0);
    const table = body.subarray(at + 1, at + 17 + symbols);
    if (table.length !== 16 + symbols || table.subarray(16).some((category) => category > 16)) return false;
    // C.2: codes of all lengths fill no more than there is.
    const filled = counts.reduce((sum, count, index) => sum + count * 2 ** (15 - index), 0);
    if (symbols === 0 || filled > 65_536) return false;
    tables.set(body[at] ?? 0, table);
    at += 17 + symbols;
  }
  return true;
}

/** B.2.3: the components in the frame's order, predictor 1, nothing after it. */
function headOf(
  { precision, rows, columns, ids }: Frame,
  body: Uint8Array,
  tables: ReadonlyMap<number, Uint8Array>,
  scanAt: number,
): LosslessHead | null {
  const count = ids.length;
  if (body[0] !== count || body.length !== 4 + 2 * count) return null;
  const [predictor, end, transform] = body.subarray(1 + 2 * count);
  if (predictor !== 1 || end !== 0 || transform !== 0) return null;
  if (ids.some((id, index) => body[1 + 2 * index] !== id)) return null;
  const chosen = ids.flatMap((_, index) => tables.get((body[2 + 2 * index] ?? 0) >> 4) ?? []);
  const rowSamples = columns * count;
  if (chosen.length !== count || rowSamples % 2 !== 0) return null;
  return { precision, rows, rowSamples, components: count === 1 ? 1 : 2, tables: chosen, scanAt };
}
