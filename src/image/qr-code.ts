import qrcode from 'qrcode-generator';

/** A two-dimensional code as squares, without its quiet zone. */
export interface QrCode {
  /** Squares on each side: 21 to 177. */
  readonly size: number;
  isDark(row: number, column: number): boolean;
}

/** White squares that readers ask for on every side (ISO/IEC 18004 clause 9.1, from memory). */
export const quietZone = 4;

/**
 * The QR code (ISO/IEC 18004) of a text as UTF-8, as small as holds it with a level of error correction: `M` survives the
 * loss of about 15 % of its squares, `Q` 25 %, `H` 30 %. Throws where the text does not fit: 2331 bytes at `M`.
 */
export function qrCode(text: string, level: 'L' | 'M' | 'Q' | 'H' = 'M'): QrCode {
  qrcode.stringToBytes = (given) => [...new TextEncoder().encode(given)];
  const code = qrcode(0, level);
  code.addData(text, 'Byte');
  code.make();
  return {
    size: code.getModuleCount(),
    isDark: (row, column) => code.isDark(row, column),
  };
}

/**
 * The dark squares as one SVG path, one unit to a square, the quiet zone included: for a viewBox of
 * `0 0 size + 2 * quietZone`.
 */
export function qrPath({ size, isDark }: QrCode): string {
  const runs: string[] = [];
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      if (!isDark(row, column)) continue;
      const from = column;
      while (column + 1 < size && isDark(row, column + 1)) column += 1;
      runs.push(`M${from + quietZone} ${row + quietZone}h${column - from + 1}v1h-${column - from + 1}z`);
    }
  }
  return runs.join('');
}
