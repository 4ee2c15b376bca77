import qrcode from 'qrcode-generator';

/** A QR code as modules, quiet zone left out. */
export interface CodeModules {
  /** Modules a side. */
  readonly size: number;
  /** `dark[row * size + column]`, 1 for a dark module. */
  readonly dark: Uint8Array;
}

/** Light modules that have to lie around a code (ISO/IEC 18004:2015 section 9.1). */
export const quietModules = 4;

/**
 * The modules of a code that holds this text in UTF-8, error correction level M (15 per cent of the words): a slate that
 * is held by hand has a thumb on it now and then, and a higher level has finer modules.
 */
export function codeModules(text: string): CodeModules {
  const code = qrcode(0, 'M');
  // The library takes each character for a byte.
  code.addData(bytesAsCharacters(text), 'Byte');
  code.make();
  const size = code.getModuleCount();
  const dark = new Uint8Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1)
      dark[row * size + column] = code.isDark(row, column) ? 1 : 0;
  }
  return { size, dark };
}

function bytesAsCharacters(text: string): string {
  return Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join('');
}

/**
 * The dark modules as the path of an SVG (W3C SVG 2, path data) in units of one module, from the left top of the quiet
 * zone: a picture box of `size + 2 * quietModules` units holds all. Runs of a row are one rectangle.
 */
export function modulesPath({ size, dark }: CodeModules): string {
  const parts: string[] = [];
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; ) {
      let end = column;
      while (end < size && dark[row * size + end] === 1) end += 1;
      const length = end - column;
      if (length > 0) parts.push(`M${column + quietModules} ${row + quietModules}h${length}v1h-${length}z`);
      column = Math.max(end, column + 1);
    }
  }
  return parts.join('');
}
