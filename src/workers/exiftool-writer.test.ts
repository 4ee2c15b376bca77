import { createHash } from 'node:crypto';
import { copyFile, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ExifTool } from 'exiftool-vendored';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasShared, sharedPath } from '../../test/shared.ts';
import { noContact, noPictureWords, nowhere, type PictureWords, tagsOfWords } from '../metadata/index.ts';
import { ExifToolWriter } from './exiftool-writer.ts';

const writer = new ExifToolWriter();
/** A process of its own, with its own settings: what somebody else reads. */
const reader = new ExifTool();
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-writer-'));
});
afterAll(async () => {
  await writer.close();
  await reader.end();
  await rm(folder, { recursive: true });
});

const nothingOf = (path: string) => ({
  path,
  settings: false,
  serialNumbers: false,
  position: false,
  words: false,
});

const words: PictureWords = {
  title: 'Mug, blue {1|2}',
  headline: 'Größe & "Glas" <b>',
  caption: 'Line one\nline two – 陶器, 100 %',
  captionWriter: 'Bo',
  keywords: ['mug', 'Küche', '007', 'a, b; c'],
  creators: ['Ada Ö', 'Bo'],
  creatorTitle: 'Photographer',
  credit: 'Ada Ö / Quillmere',
  source: 'Studio',
  copyright: '© 2026 Ada Ö',
  usageTerms: 'Catalogue only',
  rightsPage: 'https://example.org/rights',
  contact: { ...noContact, address: 'Kiln Lane 1, Yard', city: 'Quill', email: 'ada@example.org' },
  placeCreated: { ...nowhere, city: 'Quill, upper', country: 'United Kingdom', countryCode: 'GBR' },
  placesShown: [{ ...nowhere, sublocation: 'Kiln [2]', city: 'Mere' }],
  persons: ['Cy', 'Di'],
  altText: 'A blue mug',
  extendedDescription: 'A blue mug with a lid\nbefore grey',
  digitalSourceType: 'digitalCapture',
  instructions: 'Ask first',
  jobId: 'PO-17',
  createdAt: '2026-11-05T10:12:13+01:00',
};

type Format = 'jpeg' | 'tiff' | 'png' | 'webp' | 'avif';
const holds = (format: Format): boolean => format === 'jpeg' || format === 'tiff';

async function picture(name: string, format: Format): Promise<string> {
  const path = join(folder, name);
  const create = { width: 48, height: 32, channels: 3, background: '#468' } as const;
  const tiff = { compression: 'none' } as const;
  const opened = sharp({ create }).withIccProfile('p3');
  await (format === 'tiff' ? opened.tiff(tiff) : opened.toFormat(format)).toFile(path);
  return path;
}

describe.each(['jpeg', 'tiff', 'png', 'webp', 'avif'] as const)('%s', (format) => {
  test('every word is there for ExifTool, profile and pixels stay, the same again gives the same bytes', async () => {
    const wish = {
      tags: tagsOfWords(words, holds(format)).tags,
      holdsIim: holds(format),
      isSrgb: false,
      isJpeg: false,
    };
    const sums: string[] = [];
    for (const turn of [1, 2]) {
      const path = await picture(`same-${turn}.${format}.part`, format);
      const before = await sharp(path).raw().toBuffer();
      expect(await writer.write(path, { ...wish, takenOver: nothingOf(path) })).toEqual([]);
      const { icc, width } = await sharp(path).metadata();
      expect(width).toBe(48);
      expect(icc).toEqual((await sharp(await picture('plain.jpg', 'jpeg')).metadata()).icc);
      expect(await sharp(path).raw().toBuffer()).toEqual(before);
      sums.push(
        createHash('sha256')
          .update(await readFile(path))
          .digest('hex'),
      );
    }
    expect(sums[1]).toBe(sums[0]);
    const tags: Record<string, unknown> = await reader.readRaw(join(folder, `same-1.${format}.part`), {
      readArgs: ['-G1', '-struct', '-n', '-All', '-File:CurrentIPTCDigest'],
    });
    expect(tags).toMatchObject({
      'XMP-dc:Title': words.title,
      'XMP-photoshop:Headline': words.headline,
      'XMP-dc:Description': words.caption,
      'IFD0:ImageDescription': words.caption,
      'IFD0:Artist': 'Ada Ö; Bo',
      'XMP-iptcCore:CreatorContactInfo': { CiAdrExtadr: 'Kiln Lane 1, Yard', CiAdrCity: 'Quill' },
      'XMP-iptcExt:LocationCreated': [{ City: 'Quill, upper' }],
      'XMP-iptcExt:LocationShown': [{ Sublocation: 'Kiln [2]', City: 'Mere' }],
      'XMP-iptcExt:DigitalSourceType': 'http://cv.iptc.org/newscodes/digitalsourcetype/digitalCapture',
      'XMP-iptcCore:AltTextAccessibility': 'A blue mug',
      'XMP-xmpRights:WebStatement': 'https://example.org/rights',
      'ExifIFD:DateTimeOriginal': '2026:11:05 10:12:13',
    });
    expect(JSON.stringify(tags['XMP-dc:Subject'])).toBe('["mug","Küche","007","a, b; c"]');
    if (!holds(format)) {
      expect(Object.keys(tags).filter((name) => name.startsWith('IPTC'))).toEqual([]);
      return;
    }
    expect(tags).toMatchObject({
      'IPTC:Caption-Abstract': words.caption,
      'IPTC:City': 'Mere',
      'IPTC:By-line': ['Ada Ö', 'Bo'],
      'IPTC:CodedCharacterSet': '\u001b%G',
    });
    // MWG guidelines 2.0, 3.2: who reads tells by it that XMP and IIM were written together (from memory).
    expect(tags['Photoshop:IPTCDigest']).toBe(tags['File:CurrentIPTCDigest']);
  });
});

/** Settings, a serial number and a place, as ExifTool itself writes them. */
async function original(): Promise<string> {
  const path = await picture('original.jpg', 'jpeg');
  const tags = [
    'IFD0:Make=Maker',
    'ExifIFD:FNumber=8',
    'ExifIFD:LensModel=50 mm',
    'ExifIFD:SerialNumber=S-1',
    'ExifIFD:OwnerName=Ada',
    'GPS:GPSLatitude=48.2',
    'GPS:GPSLatitudeRef=N',
    'XMP-aux:SerialNumber=S-1',
    'XMP-dc:Creator=Somebody',
    'XMP-iptcExt:LocationShown={City=X,GPSLatitude=48.2}',
  ];
  await reader.write(path, {}, { writeArgs: ['-overwrite_original', ...tags.map((tag) => `-${tag}`)] });
  return path;
}

test.each([
  [{}, ['XMP-dc:Rights']],
  [{ settings: true }, ['ExifIFD:FNumber', 'ExifIFD:LensModel', 'IFD0:Make', 'XMP-dc:Rights']],
  [{ serialNumbers: true }, ['ExifIFD:OwnerName', 'ExifIFD:SerialNumber', 'XMP-dc:Rights']],
  [{ position: true }, ['GPS:GPSLatitude', 'XMP-dc:Rights']],
  [{ words: true }, ['XMP-dc:Creator', 'XMP-dc:Rights', 'XMP-iptcExt:LocationShown']],
])('of an original, %j takes over what was asked for and nothing else', async (asked, there) => {
  const from = await original();
  const path = await picture('taken.png', 'png');
  const tags = new Map([['XMP-dc:Rights', 'r']]);
  const takenOver = { ...nothingOf(from), ...asked };
  expect(
    await writer.write(path, { tags, holdsIim: false, isSrgb: false, isJpeg: false, takenOver }),
  ).toEqual([]);
  const readArgs = ['-G1', '-struct', '-n', '-All'];
  const report: Record<string, unknown> = await reader.readRaw(path, { readArgs });
  const looked =
    /^(?!Composite).*(?:Rights|FNumber|LensModel|:Make$|SerialNumber|OwnerName|GPSLatitude$|dc:Creator|LocationShown)/;
  expect(
    Object.keys(report)
      .filter((name) => looked.test(name))
      .sort(),
  ).toEqual(there);
  if ('words' in asked) expect(report['XMP-iptcExt:LocationShown']).toEqual([{ City: 'X' }]);
});

test('an original that holds nothing of what is taken over is none the worse for it', async () => {
  const from = await picture('bare.png', 'png');
  const path = await picture('of-bare.jpg', 'jpeg');
  const all = { path: from, settings: true, serialNumbers: true, position: true, words: true };
  const tags = new Map([['XMP-dc:Rights', 'r']]);
  expect(
    await writer.write(path, { tags, holdsIim: true, isSrgb: false, isJpeg: false, takenOver: all }),
  ).toEqual([]);
});

test.each([
  ['jpeg', true, 1],
  ['jpeg', false, 65_535],
  ['tiff', true, 1],
  ['tiff', false, 65_535],
] as const)(
  'of a %s in sRGB (%s) Exif says ColorSpace %i, and the order of components of a JPEG alone',
  async (format, isSrgb, said) => {
    // CIPA DC-008-2023, 4.6.6.2: 1 is sRGB, 65535 any other; 4.6.6.3: ComponentsConfiguration is of compressed data.
    const path = await picture(`space.${format}`, format);
    const tags = new Map([['ExifIFD:DateTimeOriginal', '2026:11:05 10:12:13']]);
    const isJpeg = format === 'jpeg';
    const wish = { tags, holdsIim: true, isSrgb, isJpeg, takenOver: nothingOf(path) };
    expect(await writer.write(path, wish)).toEqual([]);
    const report: Record<string, unknown> = await reader.readRaw(path, { readArgs: ['-G1', '-n', '-All'] });
    expect(report['ExifIFD:ColorSpace']).toBe(said);
    expect('ExifIFD:ComponentsConfiguration' in report).toBe(isJpeg);
  },
);

test('a file that is no picture is an error that names it', async () => {
  const path = join(folder, 'text.jpg');
  await writeFile(path, 'not a picture');
  const wish = {
    tags: new Map([['XMP-dc:Rights', 'r']]),
    holdsIim: true,
    isSrgb: false,
    isJpeg: false,
    takenOver: nothingOf(path),
  };
  await expect(writer.write(path, wish)).rejects.toMatchObject({ code: 'metadata-unreadable' });
});

/** IPTC-PhotometadataRef-Std2021.1.jpg, the IPTC's own reference picture with every property filled (iptc.org). */
describe.skipIf(!hasShared)('the IPTC reference picture', () => {
  const reference = 'reference/metadata/IPTC-PhotometadataRef-Std2021.1.jpg';
  const groups = [
    'XMP-dc',
    'XMP-photoshop',
    'XMP-iptcCore',
    'XMP-iptcExt',
    'XMP-xmpRights',
    'XMP-plus',
    'IPTC',
  ];
  const readAll = (path: string): Promise<Record<string, unknown>> =>
    reader.readRaw(path, {
      readArgs: ['-G1', '-struct', '-n', '-a', ...groups.map((name) => `-${name}:all`)],
    });

  test('everything that it says of itself is taken over, where that is asked for', async () => {
    const from = join(folder, 'reference.jpg');
    await copyFile(sharedPath(reference), from);
    const path = await picture('with-reference.jpg', 'jpeg');
    const takenOver = { ...nothingOf(from), words: true, position: true };
    expect(
      await writer.write(path, { tags: new Map(), holdsIim: true, isSrgb: false, isJpeg: false, takenOver }),
    ).toEqual([]);
    const [wanted, got] = [await readAll(from), await readAll(path)];
    expect(Object.keys(wanted).length).toBeGreaterThan(80);
    expect({ ...got, SourceFile: '' }).toMatchObject({ ...wanted, SourceFile: '' });
  });

  test('what is written by name comes out of it under the same tags with the same values', async () => {
    const from = await readAll(sharedPath(reference));
    const text = (tag: string): string => String(from[tag] ?? '');
    const list = (tag: string): string[] => [from[tag]].flat().map(String);
    const said: PictureWords = {
      ...noPictureWords,
      title: text('XMP-dc:Title'),
      headline: text('XMP-photoshop:Headline'),
      caption: text('XMP-dc:Description'),
      captionWriter: text('XMP-photoshop:CaptionWriter'),
      keywords: list('XMP-dc:Subject'),
      creators: list('XMP-dc:Creator'),
      creatorTitle: text('XMP-photoshop:AuthorsPosition'),
      credit: text('XMP-photoshop:Credit'),
      source: text('XMP-photoshop:Source'),
      copyright: text('XMP-dc:Rights'),
      usageTerms: text('XMP-xmpRights:UsageTerms'),
      rightsPage: text('XMP-xmpRights:WebStatement'),
      persons: list('XMP-iptcExt:PersonInImage'),
      altText: text('XMP-iptcCore:AltTextAccessibility'),
      extendedDescription: text('XMP-iptcCore:ExtDescrAccessibility'),
      instructions: text('XMP-photoshop:Instructions'),
      jobId: text('XMP-photoshop:TransmissionReference'),
      placesShown: [
        {
          sublocation: text('XMP-iptcCore:Location'),
          city: text('XMP-photoshop:City'),
          province: text('XMP-photoshop:State'),
          country: text('XMP-photoshop:Country'),
          countryCode: text('XMP-iptcCore:CountryCode'),
        },
      ],
    };
    const { tags, cut } = tagsOfWords(said, true);
    expect(cut).toEqual([]);
    const path = await picture('by-name.jpg', 'jpeg');
    expect(
      await writer.write(path, {
        tags,
        holdsIim: true,
        isSrgb: false,
        isJpeg: false,
        takenOver: nothingOf(path),
      }),
    ).toEqual([]);
    const got = await readAll(path);
    const compared = [...tags.keys()].filter((name) => name in from && name !== 'XMP-iptcExt:LocationShown');
    expect(compared.length).toBeGreaterThan(35);
    for (const name of compared) expect([name, got[name]]).toEqual([name, from[name]]);
  });
});
