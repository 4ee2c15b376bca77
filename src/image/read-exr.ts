import type { ExrPicture } from './exr.ts';

/** Attributes of a head that is read; a file of ours has a dozen. */
const attributesMax = 64;

/** Reads what `encodeExr` writes. Null for any other OpenEXR file and for one that is cut. */
export function readExr(bytes: Uint8Array): ExrPicture | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    if (view.getInt32(0, true) !== 20_000_630 || view.getInt32(4, true) !== 2) return null;
    return picture(view, readHead(view));
  } catch (thrown) {
    // A place beyond the end.
    if (thrown instanceof RangeError) return null;
    throw thrown;
  }
}

interface Head {
  readonly values: ReadonlyMap<
    string,
    { readonly type: string; readonly at: number; readonly bytes: number }
  >;
  readonly end: number;
}

function readHead(view: DataView): Head {
  const values = new Map<string, { type: string; at: number; bytes: number }>();
  let at = 8;
  while (view.getUint8(at) !== 0) {
    const name = textAt(view, at);
    const type = textAt(view, at + name.length + 1);
    const sizeAt = at + name.length + type.length + 2;
    const bytes = view.getInt32(sizeAt, true);
    if (bytes < 0 || values.size >= attributesMax) throw new RangeError('readExr: no head');
    values.set(name, { type, at: sizeAt + 4, bytes });
    at = sizeAt + 4 + bytes;
  }
  return { values, end: at + 1 };
}

/** Up to its end; names have 255 letters at most. */
function textAt(view: DataView, from: number, length = Number.POSITIVE_INFINITY): string {
  let text = '';
  for (let at = from; text.length < Math.min(length, 256) && view.getUint8(at) !== 0; at++) {
    text += String.fromCharCode(view.getUint8(at));
  }
  return text;
}

function picture(view: DataView, { values, end }: Head): ExrPicture | null {
  const place = (name: string): number => values.get(name)?.at ?? Number.NaN;
  if (view.getUint8(place('compression')) !== 0 || values.get('channels')?.bytes !== 55) return null;
  const data = boxAt(view, place('dataWindow'));
  const { widthPx, heightPx } = boxAt(view, place('displayWindow'));
  // No more than the file can hold, before anything of that size is made.
  if (data.widthPx * data.heightPx * 6 > view.byteLength) return null;
  const halves = new Uint16Array(data.widthPx * data.heightPx * 3);
  let at = end + data.heightPx * 8;
  for (let line = 0; line < data.heightPx; line++) {
    at += 8;
    for (let channel = 2; channel >= 0; channel--) {
      let to = line * data.widthPx * 3 + channel;
      for (let column = 0; column < data.widthPx; column++, to += 3, at += 2) {
        halves[to] = view.getUint16(at, true);
      }
    }
  }
  const notes: Record<string, number | string> = {};
  for (const [name, { type, at: from, bytes }] of values) {
    if (standard.has(name)) continue;
    if (type === 'float') notes[name] = view.getFloat32(from, true);
    if (type === 'string') notes[name] = textAt(view, from, bytes);
  }
  return { ...data, halves, whole: { widthPx, heightPx }, notes };
}

const standard = new Set(['pixelAspectRatio', 'screenWindowWidth']);

function boxAt(
  view: DataView,
  at: number,
): { leftPx: number; topPx: number; widthPx: number; heightPx: number } {
  if (Number.isNaN(at)) throw new RangeError('readExr: no window');
  const [leftPx, topPx] = [view.getInt32(at, true), view.getInt32(at + 4, true)];
  const widthPx = view.getInt32(at + 8, true) - leftPx + 1;
  const heightPx = view.getInt32(at + 12, true) - topPx + 1;
  if (widthPx < 1 || heightPx < 1) throw new RangeError('readExr: no window');
  return { leftPx, topPx, widthPx, heightPx };
}
