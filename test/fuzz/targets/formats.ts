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

const headBytes = 24 * 1024;

/** The readers of files that are arriving, on heads of real files and of pictures that others broke. */
export const formatsTarget: FuzzTarget = {
  name: 'formats',
  inputBytesMax: headBytes,
  seeds: () => [
    ...[tinyDng(), tinyDng(false), tinyBigTiff()].map((fixture) => fixture.build()),
    cameraJpeg(200, 150).build(),
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

/** What is whole at this length is not whole with the last byte of its structure missing, nor with half of it. */
function insistCutIsSeen(input: Uint8Array, { kind, wholeness, expectedBytes }: Inspection): void {
  if (wholeness.kind !== 'whole' || expectedBytes === null) return;
  insist(
    expectedBytes <= input.length,
    `${kind} of ${input.length} bytes is whole, and ${expectedBytes} belong to it`,
  );
  for (const length of [expectedBytes - 1, expectedBytes >> 1]) {
    const cut = inspect(sourceOfBytes(input.subarray(0, Math.max(0, length))));
    insist(cut.wholeness.kind !== 'whole', `${kind} of ${expectedBytes} bytes is whole after ${length} too`);
  }
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
