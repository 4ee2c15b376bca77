/**
 * JPEG markers and the frame header. ITU-T T.81 (1992), tables B.1 and B.2. A marker is 0xFF and one of these.
 */
export const marker = {
  stuffedZero: 0x00,
  TEM: 0x01,
  SOF0: 0xc0,
  SOF1: 0xc1,
  SOF2: 0xc2,
  SOF3: 0xc3,
  DHT: 0xc4,
  JPG: 0xc8,
  DAC: 0xcc,
  SOF15: 0xcf,
  RST0: 0xd0,
  RST7: 0xd7,
  SOI: 0xd8,
  EOI: 0xd9,
  SOS: 0xda,
  DNL: 0xdc,
  APP1: 0xe1,
  APP2: 0xe2,
} as const;

/** "Exif", NUL, NUL, with which an APP1 segment says what it holds: Exif 2.32 section 4.7.2. */
export const exifSignature: readonly number[] = [0x45, 0x78, 0x69, 0x66, 0, 0];

/** What a frame header says. */
export interface JpegFrame {
  /** `other`: hierarchical, arithmetic or lossless; not shown by browsers. */
  readonly process: 'baseline' | 'extended' | 'progressive' | 'lossless' | 'other';
  readonly precisionBits: number;
  readonly widthPx: number;
  /** 0 where a DNL segment behind the first scan says it (T.81 B.2.5). */
  readonly heightPx: number;
  readonly components: number;
}

/** Bytes of a frame header that {@link parseFrame} needs, from its length field on. */
export const frameHeaderBytes = 8;

/** SOF0 to SOF15 without the three codes between them that mean something else (T.81 table B.1). */
export function startsFrame(code: number): boolean {
  return (
    code >= marker.SOF0 &&
    code <= marker.SOF15 &&
    code !== marker.DHT &&
    code !== marker.JPG &&
    code !== marker.DAC
  );
}

/** Markers without a length field and a segment (T.81 B.1.1.3). */
export function standsAlone(code: number): boolean {
  return code === marker.TEM || code === marker.SOI || isRestart(code);
}

export function isRestart(code: number): boolean {
  return code >= marker.RST0 && code <= marker.RST7;
}

/** The frame header whose length field is at the start of `bytes`. T.81 B.2.2. */
export function parseFrame(code: number, bytes: Uint8Array): JpegFrame {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return {
    process: processOf(code),
    precisionBits: view.getUint8(2),
    heightPx: view.getUint16(3),
    widthPx: view.getUint16(5),
    components: view.getUint8(7),
  };
}

function processOf(code: number): JpegFrame['process'] {
  if (code === marker.SOF0) return 'baseline';
  if (code === marker.SOF1) return 'extended';
  if (code === marker.SOF2) return 'progressive';
  return code === marker.SOF3 ? 'lossless' : 'other';
}

/** Whether an ordinary decoder shows it: Huffman-coded, 8 bits, one, three or four components, a size. */
export function isViewable(frame: JpegFrame): boolean {
  return (
    frame.process !== 'lossless' &&
    frame.process !== 'other' &&
    frame.precisionBits === 8 &&
    [1, 3, 4].includes(frame.components) &&
    frame.widthPx > 0
  );
}
