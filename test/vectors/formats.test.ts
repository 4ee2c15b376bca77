import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type Inspection, inspect, pickFirstView, sourceOfBytes } from '../../src/formats/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

const bytesOf = (name: string): Uint8Array => readFileSync(sharedPath(name));
const found = (name: string): Inspection => inspect(sourceOfBytes(bytesOf(name)));

/**
 * Where previews end and how large they are, measured on heads of real files before this parser existed (table in the
 * notes on raw files). `inHead`: the sizes that the head alone can say.
 */
const previewTable = [
  { file: 'head-only-1.arw', ends: [36_368, 686_053], sizes: ['160x120', 'nullxnull'] },
  { file: 'head-only-2.cr2', ends: [18_555, 890_467], sizes: ['160x120', '1600x1200'] },
  {
    file: 'head-only-6.dng',
    ends: [28_618, 2_644_410, 27_821_651],
    sizes: ['160x120', '5952x3968', '1440x960'],
  },
  // The table's first figure, 29,024, is the end of the box: its JPEG of 16,199 bytes is filled up to an even number.
  {
    file: 'head-only-7.cr3',
    ends: [29_024 - 1, 403_242, 2_467_426],
    sizes: ['160x120', '1620x1080', '6720x4480'],
  },
] as const;

describe.skipIf(!hasShared())('real raw files', () => {
  test.each(previewTable)(
    '$file announces its previews up to the bytes measured',
    ({ file, ends, sizes }) => {
      const { previews } = found(`samples/${file}`);
      expect(previews.map((preview) => preview.offset + preview.length)).toEqual(ends);
      expect(previews.map((preview) => `${preview.widthPx}x${preview.heightPx}`)).toEqual(sizes);
      expect(previews.map((preview) => preview.complete)).toEqual(ends.map((end) => end < 131_072));
    },
  );

  test('the first view of a head is its small preview, and the next position is the large one’s end', () => {
    const head = inspect(sourceOfBytes(bytesOf('samples/head-only-2.cr2'), false));
    expect(pickFirstView(head.previews)?.widthPx).toBe(160);
    expect(head.wantedNext).toBe(890_467);
  });

  test.each([
    ['head-only-1.arw', 'tiff-raw'],
    ['head-only-2.cr2', 'tiff-raw'],
    ['head-only-3.dng', 'dng'],
    ['head-only-4.nef', 'tiff-raw'],
    ['head-only-6.dng', 'dng'],
    ['head-only-7.cr3', 'iso-bmff-raw'],
    ['real-chart-4mp.dng', 'dng'],
    ['undecodable-vc5.gpr', 'dng'],
    ['jpeg-named-nef-5.nef', 'jpeg'],
    ['SOURCES.md', 'text'],
  ])('%s is %s, whatever its name', (file, kind) => {
    expect(found(`samples/${file}`).kind).toBe(kind);
  });

  test.each([
    'head-only-1.arw',
    'head-only-2.cr2',
    'head-only-3.dng',
    'head-only-4.nef',
    'head-only-6.dng',
    'head-only-7.cr3',
  ])('%s, a head, is proved cut', (file) => {
    expect(found(`samples/${file}`).wholeness.kind).toBe('cut');
  });

  test('the first 300 bytes of an ISO base media raw announce the length of the whole file', () => {
    const bytes = bytesOf('samples/head-only-7.cr3');
    const { expectedBytes } = inspect(sourceOfBytes(bytes.subarray(0, 300), false));
    // The notes give 8.4 % for the end of the full-size preview, of which the table above says where it is.
    expect(((2_467_426 / (expectedBytes ?? 0)) * 100).toFixed(1)).toBe('8.4');
    // Every box header and table of the head leads to the same length.
    expect(inspect(sourceOfBytes(bytes, false)).expectedBytes).toBe(expectedBytes);
  });

  test('an ISO base media raw is proved cut at any byte of its head', () => {
    const bytes = bytesOf('samples/head-only-7.cr3');
    for (let end = 17; end < bytes.length; end += end < 33_000 ? 1 : 997) {
      expect(inspect(sourceOfBytes(bytes.subarray(0, end))).wholeness.kind, `cut at ${end}`).toBe('cut');
    }
  });

  test.each(['real-chart-4mp.dng', 'undecodable-vc5.gpr', 'jpeg-named-nef-5.nef'])(
    '%s is whole, and cut anywhere it is not',
    (file) => {
      const bytes = bytesOf(`samples/${file}`);
      expect(found(`samples/${file}`).wholeness).toEqual({ kind: 'whole' });
      for (const end of cutsOf(bytes.length)) {
        const { wholeness } = inspect(sourceOfBytes(bytes.subarray(0, end)));
        expect(wholeness.kind, `cut at ${end}`).not.toBe('whole');
        if (end > 16) expect(wholeness.kind, `cut at ${end}`).toBe('cut');
      }
    },
  );

  test('a JPEG of 382 kB, taken in byte by byte, is whole at its last byte and not before', () => {
    const bytes = bytesOf('samples/jpeg-named-nef-5.nef');
    let previous: Inspection | null = null;
    for (let end = 1; end <= bytes.length; end++) {
      previous = inspect(sourceOfBytes(bytes.subarray(0, end), false), undefined, previous);
      if ((previous.wholeness.kind === 'whole') !== (end === bytes.length)) expect.fail(`at byte ${end}`);
    }
  });
});

/** Every cut in the first and last 4 kB, then a stride that shares no factor with blocks: all of them take minutes. */
function cutsOf(length: number): number[] {
  const edge = 4096;
  const near = Array.from({ length: edge }, (_, i) => i);
  const strided = Array.from({ length: Math.floor(length / 997) }, (_, i) => i * 997);
  return [...near, ...strided, ...near.map((i) => length - edge + i)];
}

interface RobustnessFile {
  readonly file: string;
  readonly bytes: number;
  /** What Pillow 9.4.0 said: `ok …` or `error …`. */
  readonly pillow: string;
}

const manifest: readonly RobustnessFile[] = hasShared()
  ? JSON.parse(readFileSync(sharedPath('reference/robustness/manifest.json'), 'utf8')).files
  : [];

describe.skipIf(!hasShared())('damaged, hostile and odd files', () => {
  test.each(manifest)('$file: an answer, within a second, at any cut', ({ file, bytes: length }) => {
    const bytes = bytesOf(`reference/robustness/${file}`);
    expect(bytes.length).toBe(length);
    for (let end = 0; end <= length; end += Math.max(1, Math.floor(length / 300))) {
      const early = inspect(sourceOfBytes(bytes.subarray(0, end), false));
      expect(early.wanted).toEqual([]);
    }
  });

  /** Where the decoder is more tolerant than the file's own structure: each is wrong in the field named. */
  const structureSaysOtherwise = [
    'pillow-tiff_wrong_bits_per_sample.tiff', // StripByteCounts: 35 MB in a file of 11 kB
    'ljt-jpeg_turbo_edges-only_images_id-000318-src-000000-op-arith8-pos-503-val-+7-+cov.jpg', // EOI: byte 503 changed
  ];

  test.each(manifest.filter(({ file, pillow }) => pillow.startsWith('ok') && /\.(jpe?g|tiff?)$/.test(file)))(
    '$file: what another decoder opens whole is not called cut',
    ({ file }) => {
      const { wholeness } = found(`reference/robustness/${file}`);
      expect(wholeness.kind).toBe(structureSaysOtherwise.includes(file) ? 'cut' : 'whole');
    },
  );

  test.each([
    'cut-half.jpg',
    'pillow-truncated_jpeg.jpg',
    'skimage-truncated.jpg',
    'meta-huge_tag_exif.jpg',
    'tiff-strip-offset-past-end.tif',
  ])('%s: made by cutting, is proved cut', (file) => {
    expect(found(`reference/robustness/${file}`).wholeness.kind).toBe('cut');
  });
});

interface OrientationPicture {
  readonly file: string;
  readonly orientation: number;
  readonly stored_size: readonly [number, number];
}

const orientationPictures: readonly OrientationPicture[] = existsSync(
  sharedPath('reference/metadata/orientation/expected.json'),
)
  ? JSON.parse(readFileSync(sharedPath('reference/metadata/orientation/expected.json'), 'utf8')).images
  : [];

/** Sizes and orientation as Pillow reads them. */
test.skipIf(!hasShared()).each(orientationPictures)(
  '$file: orientation $orientation and stored size as another reader finds them',
  ({ file, orientation, stored_size }) => {
    const picture = found(`reference/metadata/orientation/${file}`);
    expect(picture.tags.orientation).toBe(orientation);
    expect([picture.pictureWidthPx, picture.pictureHeightPx]).toEqual(stored_size);
  },
);

test.skipIf(!hasShared())('every reference picture is whole, and its size is what its decoder says', () => {
  const folder = 'reference/metadata';
  const pictures = readdirSync(sharedPath(folder)).filter((name) => name.endsWith('.jpg'));
  expect(pictures.length).toBeGreaterThan(5);
  for (const name of pictures) expect(found(`${folder}/${name}`).wholeness, name).toEqual({ kind: 'whole' });
});
