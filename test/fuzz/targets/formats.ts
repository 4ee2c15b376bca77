import { readdirSync, readFileSync } from 'node:fs';
import {
  defaultLimits,
  type Inspection,
  inspect,
  inspectArrived,
  SparseSource,
  sourceOfBytes,
} from '../../../src/formats/index.ts';
import { hasShared, sharedPath } from '../../shared.ts';
import { cameraJpeg } from '../../vectors/formats/jpeg-fixtures.ts';
import { tinyBigTiff, tinyDng } from '../../vectors/formats/tiff-fixtures.ts';
import { type FuzzTarget, insist } from '../target.ts';
import { insistOpcodesBounded, opcodeSeeds } from './opcodes.ts';

const headBytes = 24 * 1024;

/** The readers of files that are arriving, on heads of real files and of pictures that others broke. */
export const formatsTarget: FuzzTarget = {
  name: 'formats',
  inputBytesMax: headBytes,
  seeds: () => [
    ...[tinyDng(), tinyDng(false), tinyBigTiff()].map((fixture) => fixture.build()),
    cameraJpeg(200, 150).build(),
    ...deliveredHeads(),
    ...opcodeSeeds(),
    rafHead(),
    ...realHeads(),
  ],
  words: [
    'Exif\0\0',
    'MPF\0',
    'II*\0',
    'MM\0*',
    'ftyp',
    'crx ',
    'moov',
    'trak',
    'uuid',
    'FUJIFILMCCD-RAW ',
    '\x89PNG',
    'IEND',
    'RIFF',
    'WEBP',
    '\xff\xd8\xff',
    '\xff\xd9',
    '\xff\xda',
    '\xff\xc0',
    '\xff\xc2',
    '\xff\xe1',
    '\x8a\x87\x04\0',
    '\x11\x01\x04\0',
    '\x17\x01\x04\0',
    '\x4a\x01\x04\0',
    '\x01\x02\x04\0',
    '\x02\x02\x04\0',
  ].map((word) => Uint8Array.from(word, (character) => character.charCodeAt(0))),
  run: async (input) => {
    insistOpcodesBounded(input);
    const whole = inspect(sourceOfBytes(input));
    insistBounded(whole);
    insistCutIsSeen(input, whole);
    await arrives(input, whole);
  },
};

/** The beginnings of the files beside the checkout, where they are there; what lies behind is cut off. */
function realHeads(): Uint8Array[] {
  if (!hasShared()) return [];
  return ['samples', 'reference/robustness'].flatMap((folder) =>
    readdirSync(sharedPath(folder))
      .filter((name) => !/\.(md|json|txt|csv)$/.test(name))
      .map((name) => Uint8Array.from(readFileSync(sharedPath(`${folder}/${name}`)).subarray(0, headBytes))),
  );
}

/** A PNG and a WebP as short as their readers take them (PNG 1.2 section 3; RFC 9649 section 2.5). */
function deliveredHeads(): Uint8Array[] {
  const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));
  return [
    bytesOf('\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x01\0\0\0\x01\x08\0\0\0\0\0\0\0\0\0\0\0\0IEND\xaeB`\x82'),
    bytesOf('RIFF\x12\0\0\0WEBPVP8L\x05\0\0\0\x2f\0\0\0\0\0'),
  ];
}

/** A RAF that points to a JPEG, from memory as the reader itself: pointers of four bytes from byte 84 on. */
function rafHead(): Uint8Array {
  const jpeg = cameraJpeg(200, 150).build();
  const bytes = new Uint8Array(256 + jpeg.length + 64);
  bytes.set(new TextEncoder().encode('FUJIFILMCCD-RAW 0201'));
  bytes.set(jpeg, 256);
  const view = new DataView(bytes.buffer);
  for (const [at, value] of [256, jpeg.length, 256 + jpeg.length, 32, 288 + jpeg.length, 32].entries()) {
    view.setUint32(84 + 4 * at, value);
  }
  return bytes;
}

function insistBounded(found: Inspection): void {
  insist(found.previews.length <= defaultLimits.previewsMax + 1, `${found.previews.length} previews`);
  insist(found.issues.length <= defaultLimits.issuesMax, `${found.issues.length} issues`);
  insist(found.wanted.length <= defaultLimits.wantedMax, `${found.wanted.length} ranges wanted`);
  for (const { offset, length } of [...found.previews, ...found.wanted]) {
    insist(isCount(offset) && isCount(length) && length > 0, `a range of ${length} bytes at ${offset}`);
  }
  for (const figure of [found.expectedBytes, found.wantedNext, found.pictureWidthPx, found.pictureHeightPx]) {
    insist(figure === null || isCount(figure), `a figure of ${figure}`);
  }
}

const isCount = (figure: number): boolean => Number.isSafeInteger(figure) && figure >= 0;

/** What is whole is not whole with the last byte of its structure missing, nor (where it has a length) with half of it. */
function insistCutIsSeen(input: Uint8Array, found: Inspection): void {
  if (found.wholeness.kind !== 'whole') return;
  const bytes = neededBytes(input, found);
  insist(bytes <= input.length, `${found.kind} of ${input.length} bytes is whole, and ${bytes} belong to it`);
  // A PNG is known by its last bytes alone: half of one may happen to end in the same way.
  const shorter = found.kind === 'png' ? [bytes - 1] : [bytes - 1, bytes >> 1];
  for (const length of shorter) {
    const cut = inspect(sourceOfBytes(input.subarray(0, Math.max(0, length))));
    insist(cut.wholeness.kind !== 'whole', `${found.kind} of ${bytes} bytes is whole after ${length} too`);
  }
}

/** How many bytes must be there before a file can be whole. */
function neededBytes(input: Uint8Array, { kind, expectedBytes, jpeg }: Inspection): number {
  if (kind === 'webp') return 8 + new DataView(input.buffer, input.byteOffset).getUint32(4, true);
  return expectedBytes ?? jpeg?.endBytes ?? input.length;
}

/** The file comes in four pieces; in the end what is known of it is what is known of it at once. */
async function arrives(input: Uint8Array, whole: Inspection): Promise<void> {
  const source = new SparseSource();
  let previous: Inspection | null = null;
  let loads = 0;
  for (let quarter = 1; quarter <= 4; quarter += 1) {
    const sizeBytes = Math.floor((input.length * quarter) / 4);
    source.grow(sizeBytes);
    if (quarter === 4) source.end();
    previous = await inspectArrived(
      source,
      async ({ offset, length }) => {
        loads += 1;
        insist(loads < 5_000, 'it asks for bytes for ever');
        insist(offset + length <= sizeBytes, `bytes ${offset} and ${length} more of ${sizeBytes} are wanted`);
        return input.subarray(offset, offset + length);
      },
      { previous },
    );
    insistBounded(previous);
  }
  const seen = previous?.wholeness.kind;
  insist(
    seen === whole.wholeness.kind,
    `${whole.kind} is ${whole.wholeness.kind} at once and ${seen} as it comes`,
  );
}
