/** One opcode of a list: its figures in the order longs, doubles, and what comes behind (DNG 1.7.1, chapter 7). */
export interface WrittenOpcode {
  readonly id: number;
  readonly isOptional?: boolean;
  readonly long?: readonly number[];
  readonly double?: readonly number[];
  readonly behind?: {
    readonly long?: readonly number[];
    readonly double?: readonly number[];
    readonly float?: readonly number[];
  };
}

/** The bytes of an opcode list, big-endian as it must be. */
export function opcodeList(opcodes: readonly WrittenOpcode[]): Uint8Array<ArrayBuffer> {
  const parts: number[] = [...long(opcodes.length)];
  for (const { id, isOptional = false, long: longs = [], double: doubles = [], behind = {} } of opcodes) {
    const figures = [
      ...longs.flatMap(long),
      ...doubles.flatMap(double),
      ...(behind.long ?? []).flatMap(long),
      ...(behind.double ?? []).flatMap(double),
      ...(behind.float ?? []).flatMap(float),
    ];
    // The version that knows it: 1.3.
    parts.push(...long(id), 1, 3, 0, 0, ...long(isOptional ? 1 : 0), ...long(figures.length));
    // By hand: a list of bad pixels is longer than a call may have arguments.
    for (const byte of figures) parts.push(byte);
  }
  return Uint8Array.from(parts);
}

function long(value: number): number[] {
  return bytesOf(4, (view) => view.setUint32(0, value));
}

function double(value: number): number[] {
  return bytesOf(8, (view) => view.setFloat64(0, value));
}

function float(value: number): number[] {
  return bytesOf(4, (view) => view.setFloat32(0, value));
}

function bytesOf(length: number, write: (view: DataView) => void): number[] {
  const bytes = new Uint8Array(length);
  write(new DataView(bytes.buffer));
  return [...bytes];
}
