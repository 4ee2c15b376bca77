import { SetsideError } from '../base/index.ts';

/** Start-of-frame markers that a PDF reader decodes: baseline, extended and progressive (ITU-T T.81 table B.1; ISO 32000-1 section 7.4.8). */
const starts: ReadonlySet<number> = new Set([0xc0, 0xc1, 0xc2]);

/** How large a JPEG is, pixels as stored. Throws `not-a-jpeg` where it is none of three channels of 8 bits, as our renderings are. */
export function jpegSize(jpeg: Uint8Array): { readonly widthPx: number; readonly heightPx: number } {
  const view = new DataView(jpeg.buffer, jpeg.byteOffset, jpeg.byteLength);
  for (let at = 2; at + 9 < jpeg.length && jpeg[0] === 0xff && jpeg[1] === 0xd8; ) {
    if (jpeg[at] !== 0xff) break;
    const marker = jpeg[at + 1] ?? 0;
    if (starts.has(marker)) {
      const [depth, channels] = [jpeg[at + 4], jpeg[at + 9]];
      if (depth !== 8 || channels !== 3) break;
      return { widthPx: view.getUint16(at + 7), heightPx: view.getUint16(at + 5) };
    }
    at += 2 + view.getUint16(at + 2);
  }
  throw new SetsideError('not-a-jpeg', 'a picture for paper is no JPEG of three channels', {
    cure: 'Take the folder renderings/ of the home away: it is made again.',
  });
}
