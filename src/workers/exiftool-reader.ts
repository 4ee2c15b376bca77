import type { ExifTool } from 'exiftool-vendored';
import { errorMessage, MiB, SetsideError } from '../base/index.ts';
import type { CaptureFacts, ShareBox, SidecarWords } from '../facts/index.ts';
import {
  factsOfReport,
  focusRegionOf,
  type MetadataReader,
  metadataError,
  reportTags,
  sidecarTags,
  sidecarWordsOf,
} from '../metadata/index.ts';
import { startExifTool } from './exiftool-process.ts';

/** Bounds of the ExifTool process. */
export interface ExifToolLimits {
  /** One question about one file. Makers' notes of a raw take 0.1 s; a slow disk takes its time. */
  readonly taskMs: number;
  /** The process ends after so long without a question; starting it again costs about 0.3 s. */
  readonly idleMs: number;
  /** Largest preview that is taken out: a full-size JPEG of 100 megapixels has about 40 MB. */
  readonly previewBytesMax: number;
}

export const defaultExifToolLimits: ExifToolLimits = {
  taskMs: 20_000,
  idleMs: 60_000,
  previewBytesMax: 64 * MiB,
};

/** Where makers put their previews, by ExifTool's names. */
const previewTags = ['JpgFromRaw', 'PreviewImage', 'OtherImage', 'ThumbnailImage'] as const;
type PreviewTag = (typeof previewTags)[number];

/**
 * ExifTool behind the reader that `metadata` declares: one process, started at the first question, kept open for the
 * next, ended when idle, and by itself when the station is gone. It is only ever asked, never told to write.
 */
export class ExifToolReader implements MetadataReader {
  #starting: Promise<ExifTool> | null = null;
  readonly #limits: ExifToolLimits;
  #closed = false;

  constructor(limits: ExifToolLimits = defaultExifToolLimits) {
    this.#limits = limits;
  }

  async readFacts(
    path: string,
    options: { readonly zoneOffsetMinutes: number; readonly signal?: AbortSignal },
  ): Promise<CaptureFacts> {
    const report = await this.#report(path, reportTags, options.signal);
    return factsOfReport(report, options);
  }

  async readRating(path: string, options: { readonly signal?: AbortSignal } = {}): Promise<number | null> {
    const { Rating } = await this.#report(path, ['XMP-xmp:Rating#'], options.signal);
    return typeof Rating === 'number' && Number.isFinite(Rating) ? Rating : null;
  }

  async readSidecar(path: string, options: { readonly signal?: AbortSignal } = {}): Promise<SidecarWords> {
    return sidecarWordsOf(await this.#report(path, sidecarTags, options.signal));
  }

  async readFocusRegion(
    path: string,
    options: { readonly signal?: AbortSignal } = {},
  ): Promise<ShareBox | null> {
    // As a structure: flattened lists lose which figure belongs to which region.
    const report = await this.#report(path, ['struct', 'XMP-mwg-rs:RegionInfo'], options.signal);
    return focusRegionOf(report.RegionInfo);
  }

  async extractPreview(
    path: string,
    options: { readonly signal?: AbortSignal } = {},
  ): Promise<Uint8Array | null> {
    const report = await this.#report(path, previewTags, options.signal);
    for (const tag of bySize(report, this.#limits.previewBytesMax)) {
      const bytes = await this.#ask(
        path,
        async () => (await this.#tool()).extractBinaryTagToBuffer(tag, path),
        options.signal,
      ).catch((failure: unknown) => nothingIfUnreadable(failure));
      if (bytes !== null && bytes[0] === 0xff && bytes[1] === 0xd8) return bytes;
    }
    return null;
  }

  async close(): Promise<void> {
    this.#closed = true;
    await (await this.#starting)?.end(false);
  }

  #tool(): Promise<ExifTool> {
    this.#starting ??= startExifTool(this.#limits.taskMs, this.#limits.idleMs);
    return this.#starting;
  }

  async #report(
    path: string,
    tags: readonly string[],
    signal: AbortSignal | undefined,
  ): Promise<Readonly<Record<string, unknown>>> {
    const readArgs = tags.map((tag) => `-${tag}`);
    const report: unknown = await this.#ask(
      path,
      async () => (await this.#tool()).readRaw(path, { readArgs }),
      signal,
    );
    return typeof report === 'object' && report !== null ? { ...report } : {};
  }

  /** One question. An abort rejects at once; the answer that still comes is dropped. */
  async #ask<T>(path: string, question: () => Promise<T>, signal: AbortSignal | undefined): Promise<T> {
    signal?.throwIfAborted();
    if (this.#closed) throw metadataError('metadata-closed', `the reader is closed; ${path} was not read`);
    try {
      return await unlessAborted(question(), signal);
    } catch (failure) {
      if (signal?.aborted) throw signal.reason;
      throw this.#named(path, failure);
    }
  }

  #named(path: string, failure: unknown): SetsideError {
    const said = errorMessage(failure);
    if (this.#closed)
      return metadataError('metadata-closed', `the reader was closed while reading ${path}`, failure);
    return /time(d )?out/i.test(said)
      ? metadataError(
          'metadata-timed-out',
          `no answer about ${path} within ${this.#limits.taskMs} ms`,
          failure,
        )
      : metadataError(
          'metadata-unreadable',
          `expected metadata of ${path}, got: ${said.slice(0, 200)}`,
          failure,
        );
  }
}

/** The previews that are there, largest first, from ExifTool's "(Binary data 530370 bytes, use -b option to extract)". */
function bySize(report: Readonly<Record<string, unknown>>, bytesMax: number): PreviewTag[] {
  return previewTags
    .map((tag) => ({ tag, bytes: Number(/^\(Binary data (\d+) bytes/.exec(String(report[tag]))?.[1] ?? 0) }))
    .filter(({ bytes }) => bytes > 0 && bytes <= bytesMax)
    .sort((a, b) => b.bytes - a.bytes)
    .map(({ tag }) => tag);
}

/** A preview that is announced but cannot be taken out leaves the next smaller one. */
function nothingIfUnreadable(failure: unknown): null {
  if (failure instanceof SetsideError && failure.code === 'metadata-unreadable') return null;
  throw failure;
}

function unlessAborted<T>(answer: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (signal === undefined) return answer;
  return new Promise<T>((resolve, reject) => {
    const abort = (): void => reject(signal.reason);
    signal.addEventListener('abort', abort, { once: true });
    answer.then(resolve, reject).finally(() => signal.removeEventListener('abort', abort));
  });
}
