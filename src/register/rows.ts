import type { EpochMs } from '../base/index.ts';
import type {
  Acceptance,
  CaptureFacts,
  ExpectedFiles,
  Finding,
  FocusSpot,
  FrameShare,
  KeptReadings,
  Mark,
  Purpose,
  ReadingDetail,
  Remark,
  ShotlessAtArrival,
} from '../facts/index.ts';
import type { ClockOffset, HeededSlate, Job, PlacedBy } from '../job/index.ts';
import type { ArrivalRowState } from './tables.ts';

/** One frame as the register gives it. Its own shape: `station` makes the contract's from it. */
export interface FrameRow {
  readonly id: string;
  readonly job: string;
  readonly shot: string | null;
  readonly camera: string;
  /** Name of the file the frame is shown by. */
  readonly name: string;
  /** What the bytes are, or null while nobody has looked. */
  readonly kind: string | null;
  readonly shutterMs: EpochMs | null;
  /** Its place in the day: the shutter where it can be believed. */
  readonly orderMs: EpochMs;
  readonly times: FrameRowTimes;
  readonly capture: CaptureFacts | null;
  readonly mark: Mark;
  /** Whether a person has said so, be it `none`. */
  readonly marked: boolean;
  /** When a person said so last; null where nobody has. */
  readonly markedMs: EpochMs | null;
  readonly purpose: Purpose;
  /** Where a person said that it has to be sharp. */
  readonly spot: FocusSpot | null;
  /** The saved version of a look that was chosen for it alone; null for none. */
  readonly look: string | null;
  /** Whether guests see it; null: by its mark. */
  readonly share: FrameShare | null;
  /** Who put it to its shot. */
  readonly placedBy: PlacedBy;
  /** Why it went to no shot as it came; null where it went to one, or nobody wrote it down. */
  readonly shotless: ShotlessAtArrival | null;
  /** The slate or grey card that was heeded in it. */
  readonly slate: HeededSlate | null;
  /** What was seen held into its picture; null while nobody has looked. */
  readonly seen: SeenInPicture | null;
  /** One for a question at most. */
  readonly acceptances: readonly AcceptanceRow[];
  /** What people said of it, the oldest first. */
  readonly remarks: readonly Remark[];
  readonly picture: JsonObject | null;
  /** What was read in its pixels; null while nobody has, or where an earlier version did. */
  readonly readings: KeptReadings | null;
  /** The files shown, oldest first; empty for a frame that turned out to be another one. */
  readonly files: readonly FileRow[];
  /** Rises with every change. */
  readonly version: number;
}

/** What a look at a frame's picture found. */
export interface SeenInPicture {
  /** What is to be said of it, or null where nothing was held into it. */
  readonly finding: Finding | null;
  readonly greyCard: boolean;
}

export interface AcceptanceRow extends Acceptance {
  readonly atMs: EpochMs;
}

export interface FrameRowTimes {
  /** When the first file that ever came of it was announced: a file that is sent again does not move it. */
  readonly beganMs: EpochMs | null;
  readonly firstByteMs: EpochMs | null;
  readonly firstViewMs: EpochMs | null;
  readonly lastByteMs: EpochMs | null;
  readonly keptMs: EpochMs | null;
  readonly renderedMs: EpochMs | null;
  readonly judgedMs: EpochMs | null;
}

export interface FileRow {
  readonly arrival: string;
  /** As the camera calls it now. */
  readonly name: string;
  /** In the camera's folder. */
  readonly viewPath: string;
  /** Path of the original below the home; null while it is not kept. */
  readonly path: string | null;
  /** Name in `incoming/`, where the bytes lie until they are kept. */
  readonly incoming: string;
  readonly sizeBytes: number;
  readonly expectedBytes: number | null;
  readonly announcedBytes: number | null;
  readonly sha256: string | null;
  readonly state: ArrivalRowState;
  readonly hidden: boolean;
  /** When its own first byte came, whatever came of the frame before; null while it is arriving. */
  readonly firstByteMs: EpochMs | null;
  /** When it was kept; null while it is not. */
  readonly keptMs: EpochMs | null;
  /** In second places, oldest first. */
  readonly copies: readonly CopyRow[];
}

export interface CopyRow {
  readonly place: string;
  readonly folder: string;
  readonly readBack: 'direct' | 'cached';
  /** Only a copy on another device counts. */
  readonly otherDevice: boolean;
  readonly copiedMs: EpochMs;
}

/** A job as the rules know it. */
export type JobRow = Job;

/** A saved version of a look. */
export interface LookRow {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly hash: string;
  /** JSON as it was saved, of whichever version of looks. */
  readonly document: unknown;
  readonly savedBy: string;
  readonly savedMs: EpochMs;
  readonly laidAside: boolean;
}

/** What was said of a camera. */
export interface CameraRow {
  readonly name: string;
  readonly expects: ExpectedFiles | null;
  /** When that was said; null where it never was. */
  readonly saidMs: EpochMs | null;
  /** Of its clock, in the order of saying. */
  readonly clocks: readonly ClockOffset[];
}

/** What was found out about a frame from its bytes. Only the fields given are changed; null takes a fact back. */
export interface FrameFacts {
  readonly kind: string | null;
  /** Corrected shutter time; decides the frame's place among the others where it can be believed. */
  readonly shutterMs: EpochMs | null;
  readonly firstViewMs: EpochMs | null;
  readonly renderedMs: EpochMs | null;
  readonly judgedMs: EpochMs | null;
  readonly capture: CaptureFacts | null;
  /** What can be shown of it: sizes, orientation, state, reason. Its shape is the caller's. */
  readonly picture: JsonObject | null;
  readonly seen: SeenInPicture | null;
  readonly readings: KeptReadings | null;
  /** The rest of the readings; asked for one frame at a time. */
  readonly readingDetail: ReadingDetail | null;
}

export type JsonValue = string | number | boolean | null | readonly JsonValue[] | JsonObject;
export interface JsonObject {
  readonly [name: string]: JsonValue;
}

export interface FramesQuery {
  /** Of these alone; at most {@link pageFramesMax}. */
  readonly ids?: readonly string[];
  readonly job?: string;
  /** Any but this one. */
  readonly notJob?: string;
  /** Null asks for frames of no shot. */
  readonly shot?: string | null;
  readonly camera?: string;
  readonly mark?: Mark;
  /** Against the day; `after` then goes back. */
  readonly newestFirst?: boolean;
  /** Only frames behind this place. */
  readonly behind?: { readonly orderMs: EpochMs; readonly id: string };
  /** `next` of the page before. */
  readonly after?: string;
  /** 1 to {@link pageFramesMax}. */
  readonly limit: number;
}

export interface FramesPage {
  readonly frames: readonly FrameRow[];
  /** Cursor for `after`, null at the end. */
  readonly next: string | null;
}

/** A frame as far as whoever looks through all of a job needs it. */
export interface BriefFrame
  extends Pick<FrameRow, 'id' | 'job' | 'shot' | 'camera' | 'name' | 'orderMs' | 'mark' | 'purpose'>,
    Pick<FrameRowTimes, 'firstByteMs'> {
  /** The files shown, oldest first. */
  readonly files: readonly BriefFile[];
}

export interface BriefFile extends Pick<FileRow, 'arrival' | 'name' | 'state'> {
  readonly copies: readonly Pick<CopyRow, 'place' | 'otherDevice'>[];
}

export interface BriefFramesPage {
  readonly frames: readonly BriefFrame[];
  /** Cursor for `after`, null at the end. */
  readonly next: string | null;
}

/** Most frames of one page: a page of a few hundred kilobytes, and a bound on what one call takes from the station. */
export const pageFramesMax = 500;
