import { epochMsToRfc3339 } from '../base/index.ts';
import type { FrameFile } from '../contract/index.ts';
import type { ArrivalState } from '../facts/index.ts';
import { isSidecar } from '../judge/index.ts';
import type { OriginalTrouble } from '../keep/index.ts';
import type { BriefFile, CopyRow, FileRow } from '../register/index.ts';
import { announcedBeyond, type LiveArrival } from './live-arrivals.ts';

/** What a file's row does not say of itself. */
export interface FileSurroundings {
  readonly live: (arrival: string) => LiveArrival | null;
  /** How the original of an arrival was found not to be as it was received; null while nobody found that. */
  readonly original: (arrival: string) => OriginalTrouble | null;
  /** Whether the copy of an arrival in a second place was found not to be as it was made. */
  readonly copyIsBad: (arrival: string, place: string) => boolean;
  /** Whether an arrival is taken from a watched folder, so that no camera can send it again. */
  readonly fromFolder: (arrival: string) => boolean;
}

const shownStates = new Set<string>(['arriving', 'whole', 'unproved', 'broken-off', 'damaged']);

function isShown(state: string): state is ArrivalState {
  return shownStates.has(state);
}

/** A file as it is told, and what is known of its original. */
export interface LookedAtFile {
  readonly file: FrameFile;
  readonly original: OriginalTrouble | null;
  readonly fromFolder: boolean;
  /** From its own first byte until it was kept; null while it is not. */
  readonly tookMs: number | null;
  /** Folder of a second place whose copy was found bad; null while nobody found that. */
  readonly badCopyIn: string | null;
}

/** Empty for a file that is not shown. */
export function lookedAt(file: FileRow, about: FileSurroundings): LookedAtFile[] {
  if (!isShown(file.state)) return [];
  const { arrival, copies } = file;
  const isBad = ({ place }: CopyRow): boolean => about.copyIsBad(arrival, place);
  const good = { ...file, copies: copies.filter((copy) => !isBad(copy)) };
  const told = fileShape(good, file.state, about.live(arrival));
  const badCopyIn = copies.find(isBad)?.folder ?? null;
  const fromFolder = about.fromFolder(arrival);
  const { firstByteMs, keptMs } = file;
  const tookMs = firstByteMs === null || keptMs === null ? null : keptMs - firstByteMs;
  return [{ file: told, original: about.original(arrival), badCopyIn, fromFolder, tookMs }];
}

/** A file as far as a check asks for it. */
export interface CountedFile {
  readonly name: string;
  /** `damaged` also where the original went bad on the disk: it is as little there as one that came so. */
  readonly state: ArrivalState;
  /** Verified copies on another device, those found bad not among them. */
  readonly copies: number;
}

/** Empty for a file that is not shown. */
export function counted(
  { arrival, name, state, copies }: BriefFile,
  { original, copyIsBad }: Pick<FileSurroundings, 'original' | 'copyIsBad'>,
): CountedFile[] {
  if (!isShown(state)) return [];
  const good = copies.filter(({ place, otherDevice }) => otherDevice && !copyIsBad(arrival, place));
  return [{ name, state: original(arrival) === null ? state : 'damaged', copies: good.length }];
}

function fileShape(file: FileRow, state: ArrivalState, live: LiveArrival | null): FrameFile {
  const size = live?.bytes ?? file.sizeBytes;
  return {
    name: file.name,
    size,
    expectedSize: live?.expectedBytes ?? toldLength(file, state, size),
    sha256: file.sha256,
    state,
    copies: file.copies.filter(({ otherDevice }) => otherDevice).length,
    places: file.copies.map(({ folder, otherDevice, readBack, copiedMs }) => ({
      folder,
      otherDevice,
      readBack,
      at: epochMsToRfc3339(copiedMs),
    })),
    bytesPerSecond: live?.bytesPerSecond ?? null,
  };
}

/** How long a file should be by what is on record. One that was cut is longer than it is: what it reached is no total. */
function toldLength(file: FileRow, state: ArrivalState, size: number): number | null {
  const told = file.expectedBytes ?? announcedBeyond(file.announcedBytes, size);
  const isCut = state === 'broken-off' || state === 'damaged';
  return isCut && told !== null && told <= size ? null : told;
}

/** How much a file's state asks for attention. */
const attention: Readonly<Record<ArrivalState, number>> = {
  damaged: 5,
  'broken-off': 4,
  arriving: 3,
  unproved: 2,
  whole: 1,
};

/**
 * The file a frame is judged by: the worst, one whose original is bad before all, and of equals the largest. A sidecar counts only where there is no picture:
 * its kind proves nothing, and it must not cast doubt on a raw that is whole. One that went bad on the disk counts too.
 */
export function mainFile(files: readonly LookedAtFile[]): LookedAtFile | null {
  const pictures = files.filter(({ file, original }) => original !== null || !isSidecar(file.name));
  return (pictures.length > 0 ? pictures : files).reduce<LookedAtFile | null>(
    (worst, file) => (worst === null || asksMore(file, worst) ? file : worst),
    null,
  );
}

function asksMore(one: LookedAtFile, than: LookedAtFile): boolean {
  return (attentionOf(one) - attentionOf(than) || one.file.size - than.file.size) > 0;
}

function attentionOf({ file, original }: LookedAtFile): number {
  return original === null ? attention[file.state] : 6;
}

/** A second place that holds it, one on another device first. */
export function copyIn({ places }: FrameFile): string | null {
  return (places.find(({ otherDevice }) => otherDevice) ?? places[0])?.folder ?? null;
}
