import type { ExifTool, WriteTags } from 'exiftool-vendored';
import { errorMessage } from '../base/index.ts';
import {
  differencesIn,
  type MetadataWriter,
  metadataError,
  type TagValue,
  type TakenOver,
  type WriteWish,
} from '../metadata/index.ts';
import { startExifTool } from './exiftool-process.ts';
import type { ExifToolLimits } from './exiftool-reader.ts';

/** Exif of an exposure (CIPA DC-008-2023, 4.6.6 and 4.6.7), without what tells one camera from another. */
const settingTags = [
  'IFD0:Make',
  'IFD0:Model',
  ...[
    'ExposureTime',
    'FNumber',
    'ExposureProgram',
    'ISO',
    'SensitivityType',
    'RecommendedExposureIndex',
    'DateTimeOriginal',
    'OffsetTimeOriginal',
    'SubSecTimeOriginal',
    'ShutterSpeedValue',
    'ApertureValue',
    'BrightnessValue',
    'ExposureCompensation',
    'MaxApertureValue',
    'SubjectDistance',
    'MeteringMode',
    'LightSource',
    'Flash',
    'FocalLength',
    'FocalLengthIn35mmFormat',
    'ExposureMode',
    'WhiteBalance',
    'LensInfo',
    'LensMake',
    'LensModel',
  ].map((name) => `ExifIFD:${name}`),
] as const;

/** CIPA DC-008-2023, 4.6.6.1 (ImageUniqueID) and 4.6.6.8. */
const serialTags = ['SerialNumber', 'LensSerialNumber', 'OwnerName', 'ImageUniqueID'].map(
  (name) => `ExifIFD:${name}`,
);

const wordGroups = ['dc', 'photoshop', 'iptcCore', 'iptcExt', 'xmpRights', 'plus'].map(
  (name) => `XMP-${name}:all`,
);
const wordTags = [
  ...wordGroups,
  'IFD0:ImageDescription',
  'IFD0:Artist',
  'IFD0:Copyright',
  'ExifIFD:DateTimeOriginal',
  'ExifIFD:OffsetTimeOriginal',
] as const;

/** Inside of structures, where whole ones are taken over. */
const positionFields = ['Created', 'Shown'].flatMap((place) =>
  ['Latitude', 'Longitude', 'Altitude', 'AltitudeRef'].map(
    (name) => `-XMP-iptcExt:Location${place}GPS${name}=`,
  ),
);

/**
 * `Compact`: no room is left in XMP for somebody who would write into it in place. Without a toolkit’s name the bytes are the same
 * under every edition of the tool.
 */
const writeArgs = ['-overwrite_original', '-api', 'Compact=NoPadding', '-XMP-x:XMPToolkit='] as const;

/**
 * Small matters; a structure of which a field is to be taken away and that is not there; an original that holds nothing of
 * what is taken over from it.
 */
const harmless = /^Warning: (?:\[minor\]|Error finding parent structure|No writable tags set from )/i;

/** A file is written anew as a whole: 900 MB, a TIFF of 150 megapixels in 16 bits, onto a slow disk. */
const writerLimits = { taskMs: 180_000, idleMs: 60_000 };

/** ExifTool behind the writer that `metadata` declares. Only files that were just made are given to it. */
export class ExifToolWriter implements MetadataWriter {
  #starting: Promise<ExifTool> | null = null;
  readonly #limits: Pick<ExifToolLimits, 'taskMs' | 'idleMs'>;
  #closed = false;

  constructor(limits: Pick<ExifToolLimits, 'taskMs' | 'idleMs'> = writerLimits) {
    this.#limits = limits;
  }

  async write(
    path: string,
    wish: WriteWish,
    { signal }: { readonly signal?: AbortSignal } = {},
  ): Promise<readonly string[]> {
    const { tags, holdsIim, isSrgb, isJpeg, takenOver } = wish;
    const copied = copyArgs(takenOver, holdsIim);
    if (copied.length > 0) await this.#put(path, new Map(), copied, signal);
    const without = takenOver.words && !takenOver.position ? positionFields : [];
    const digested = holdsIim ? ['-Photoshop:IPTCDigest=new'] : [];
    // The tool begins Exif with a space that is none of those named, and as that of a JPEG.
    const space = isSrgb ? ['-ExifIFD:ColorSpace#=1'] : [];
    const order = isJpeg ? [] : ['-ExifIFD:ComponentsConfiguration='];
    await this.#put(path, tags, [...without, ...digested, ...space, ...order], signal);
    let report = await this.#report(path, signal);
    const digest = report['File:CurrentIPTCDigest'];
    if (typeof digest === 'string' && report['Photoshop:IPTCDigest'] !== digest) {
      // In a TIFF the datasets are filled up to whole words, which `new` does not know yet.
      await this.#put(path, new Map([['Photoshop:IPTCDigest', digest]]), [], signal);
      report = await this.#report(path, signal);
    }
    const allowed = { serialNumbers: takenOver.serialNumbers, position: takenOver.position };
    const stale = report['Photoshop:IPTCDigest'] === report['File:CurrentIPTCDigest'];
    return [...differencesIn(report, tags, allowed), ...(stale ? [] : ['Photoshop:IPTCDigest'])];
  }

  async close(): Promise<void> {
    this.#closed = true;
    await (await this.#starting)?.end(false);
  }

  #tool(): Promise<ExifTool> {
    this.#starting ??= startExifTool(this.#limits.taskMs, this.#limits.idleMs);
    return this.#starting;
  }

  async #put(
    path: string,
    tags: ReadonlyMap<string, TagValue>,
    more: readonly string[],
    signal: AbortSignal | undefined,
  ): Promise<void> {
    // The library knows names with their groups, its types know most of them; a name of ours that is none is told by the tool.
    const named = Object.fromEntries(tags) as WriteTags;
    const { warnings } = await this.#ask(
      path,
      async (tool) => tool.write(path, named, { writeArgs: [...writeArgs, ...more] }),
      signal,
    );
    const bad = (warnings ?? []).filter((line) => !harmless.test(line));
    if (bad.length > 0) throw metadataError('metadata-unreadable', `${path}: ${bad[0]?.slice(0, 200)}`);
  }

  async #report(path: string, signal: AbortSignal | undefined): Promise<Readonly<Record<string, unknown>>> {
    const groups = ['XMP:all', 'IPTC:all', 'EXIF:all', 'MakerNotes:all', 'Photoshop:IPTCDigest'];
    const readArgs = ['-G1', '-struct', '-n', ...groups.map((name) => `-${name}`), '-File:CurrentIPTCDigest'];
    const report: unknown = await this.#ask(path, async (tool) => tool.readRaw(path, { readArgs }), signal);
    return typeof report === 'object' && report !== null ? { ...report } : {};
  }

  async #ask<T>(
    path: string,
    question: (tool: ExifTool) => Promise<T>,
    signal: AbortSignal | undefined,
  ): Promise<T> {
    signal?.throwIfAborted();
    if (this.#closed) throw metadataError('metadata-closed', `the writer is closed; ${path} was not written`);
    try {
      const answer = await question(await this.#tool());
      signal?.throwIfAborted();
      return answer;
    } catch (failure) {
      if (signal?.aborted) throw signal.reason;
      const said = errorMessage(failure);
      const code = /time(d )?out/i.test(said) ? 'metadata-timed-out' : 'metadata-unreadable';
      throw metadataError(code, `metadata of ${path} was not written: ${said.slice(0, 200)}`, failure);
    }
  }
}

function copyArgs(
  { path, settings, serialNumbers, position, words }: TakenOver,
  holdsIim: boolean,
): string[] {
  const names = [
    ...(words ? wordTags : []),
    ...(words && holdsIim ? ['IPTC:all'] : []),
    ...(settings ? settingTags : []),
    ...(serialNumbers ? serialTags : []),
    ...(position ? ['GPS:all'] : []),
  ];
  if (names.length === 0) return [];
  const utf8 = words && holdsIim ? ['-IPTC:CodedCharacterSet=UTF8'] : [];
  return ['-tagsFromFile', path, ...names.map((name) => `-${name}`), ...utf8];
}
