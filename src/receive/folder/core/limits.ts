import { KiB } from '../../../base/index.ts';
import type { DoorLimits } from '../../core/limits.ts';

/** What bounds a watched folder. Each number says why; a test sits on both sides of each that can be crossed. */
export interface FolderLimits extends Pick<DoorLimits, 'nameBytesMax' | 'pathDepthMax' | 'bufferBytes'> {
  /** A whole file has to lie still for so long: writers that set the time or the name last have done so by then. */
  readonly quietMs: number;
  /** A file whose structure cannot say whether it is whole, for so long: no program rests longer within one file. */
  readonly patienceMs: number;
  /** A file that structure proves cut, for so long: a slow card or a paused copy goes on by then. */
  readonly cutPatienceMs: number;
  /** Between two looks at a file that is still growing: a quarter of a second behind the writer. */
  readonly lookMs: number;
  /** Between two looks at the folder itself, which may be a card that is pulled out. */
  readonly rootLookMs: number;
  /** Between two looks for what can never be taken: names only, of files that nobody waits for. */
  readonly missedLookMs: number;
  /** For so long nothing is copied while the folder is looked through, so that the newest comes first: 20,000 names over a slow line. */
  readonly firstLookMs: number;
  /** Between two tries with a file that could not be read or taken. */
  readonly retryMs: number;
  /** Files that are followed while they grow. Programs write one or two at a time. */
  readonly growingAtOnceMax: number;
  /** Files that lie still and are copied at once: the first fills the line, the second the waits for the disk. */
  readonly copiesAtOnceMax: number;
  /** Files that may wait for their turn: the largest cards hold some 10,000. More are found at the next look. */
  readonly waitingMax: number;
  /** Buffers of one file: one is read into while the others are written. */
  readonly buffersPerFile: number;
}

export const defaultFolderLimits: FolderLimits = Object.freeze({
  quietMs: 2_000,
  patienceMs: 10_000,
  cutPatienceMs: 60_000,
  lookMs: 250,
  rootLookMs: 2_000,
  missedLookMs: 30_000,
  firstLookMs: 30_000,
  retryMs: 30_000,
  growingAtOnceMax: 4,
  copiesAtOnceMax: 2,
  waitingMax: 20_000,
  nameBytesMax: 255,
  pathDepthMax: 16,
  bufferBytes: 512 * KiB,
  buffersPerFile: 4,
});
