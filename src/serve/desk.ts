import type {
  BrokenArrival,
  CameraEntry,
  CameraPatch,
  DiaryPage,
  Frame,
  FramePage,
  FrameReadings,
  Job,
  LineCheck,
  LineRehearsal,
  NewCamera,
  Station,
} from '../contract/index.ts';
import type { Finding, Mark } from '../facts/index.ts';
import type { BagCalls } from './bag-calls.ts';
import type { CardCalls, VerificationCalls } from './card-calls.ts';
import type { ClientCalls } from './client-calls.ts';
import type { EventLog } from './core/event-log.ts';
import type { Who } from './core/who.ts';
import type { DeliveryCalls } from './delivery-calls.ts';
import type { DestinationCalls } from './destination-calls.ts';
import type {
  FrameChoiceCalls,
  JobCalls,
  PatchBy,
  ScaleCalls,
  StrikeCalls,
  TargetCalls,
} from './job-calls.ts';
import type { LinkCalls } from './link-calls.ts';
import type { LookCalls } from './look-calls.ts';
import type { MetadataCalls } from './metadata-calls.ts';
import type { PaperCalls } from './paper-calls.ts';
import type { AgreementCalls, RemarkCalls } from './remark-calls.ts';

/**
 * What the web door needs of the station: declared here, provided by `station`, which converts its rooms' shapes to
 * those of the contract. Every call may reject with a `SetsideError`; `errors.ts` says which code becomes which
 * status, and a code that is not listed there becomes a plain 500.
 *
 * Ids and names come from a stranger. They have been checked for form only: look them up, never join them to a path.
 */
export interface StationDesk
  extends JobCalls,
    LayoutCalls,
    FrameChoiceCalls,
    TargetCalls,
    ScaleCalls,
    StrikeCalls,
    ClientCalls,
    DeliveryCalls,
    PaperCalls,
    CardCalls,
    BagCalls,
    VerificationCalls,
    DestinationCalls,
    MetadataCalls,
    LinkCalls,
    LookCalls,
    RemarkCalls,
    AgreementCalls {
  /** The running station. Passwords of cameras only where `asOperator`; null in their place otherwise. */
  station(asOperator: boolean): Promise<Station>;
  /**
   * Rejects `bad-camera-name`, `camera-exists`, `too-many-cameras`, `bad-allow-rule`, and for keys `private-key`,
   * `bad-key`, `unknown-key-kind`, `weak-key`, `too-many-keys`.
   */
  addCamera(camera: NewCamera, who: Who): Promise<CameraEntry>;
  /** Changes what people say of a camera, durably; gives it after the change, null where there is none of that name. Rejects as `addCamera` does. */
  patchCamera(name: string, patch: CameraPatch, who: Who): Promise<CameraEntry | null>;
  /** What to enter on a camera, as PDF, with its password: for the operator. Null where there is none of that name. */
  cameraSheet(camera: string): Promise<Uint8Array | null>;
  /** What happened on the line, newest first. */
  diary(query: DiaryQuery): Promise<DiaryPage>;
  /** Whether the way from camera to station is open, looked at anew; those who ask at once share one look. */
  lineCheck(): Promise<LineCheck>;
  /** What a device with a link found out about the cameras' way by sending some bytes. */
  rehearsed(device: DeviceTry): Promise<LineRehearsal>;
  /** What a camera imports to know the station; null where it has none. */
  rootCertificate(): RootCertificate | null;
  /** Frames in shutter order. Rejects `bad-cursor` where `after` was not given out by an earlier page. */
  frames(query: FrameQuery): Promise<FramePage>;
  frame(id: string): Promise<Frame | null>;
  /** What was read in its pixels; null where there is no such frame. */
  readings(id: string): Promise<FrameReadings | null>;
  /** The camera's own preview as far as it has arrived; null while there is none. */
  firstView(id: string): Promise<FirstView | null>;
  /** The rendering, made if need be; null where there is no such frame. Rejects `no-look`. */
  picture(id: string, query: PictureQuery): Promise<PictureAnswer | null>;
  /**
   * A part of the frame's best picture, made if need be; null where there is no such frame. Rejects `region-outside`,
   * `busy`, and with the signal's reason where nobody waits for it any longer.
   */
  region(id: string, query: RegionQuery, signal: AbortSignal): Promise<RegionAnswer | null>;
  /**
   * The light before any look, made if need be; null where there is no such frame. Rejects as `region`.
   */
  scene(id: string, query: SceneQuery, signal: AbortSignal): Promise<SceneAnswer | null>;
  /** One of the frame's own files as it was received; null where the frame has no kept file of that name. */
  original(id: string, fileName: string): Promise<Original | null>;
  /** Files that broke off and still wait in incoming/. */
  brokenArrivals(): Promise<readonly BrokenArrival[]>;
  /**
   * The operator gives up a broken-off file; false where there is none of that id. Never touches what was
   * acknowledged. Rejects `still-arriving`.
   */
  letGo(arrivalId: string, who: Who): Promise<boolean>;
  readonly events: EventLog;
}

export interface DeviceTry {
  /** Its own address, and the station's as it reached it. */
  readonly from: string;
  readonly reached: string;
  readonly bytes: number;
  readonly ms: number;
}

export interface DiaryQuery {
  readonly camera?: string | undefined;
  /** Cursor: `next` of an earlier page. */
  readonly before?: string | undefined;
  /** 1 to 500. */
  readonly limit: number;
}

export interface RootCertificate {
  readonly name: string;
  readonly pem: string;
  /** X.690. */
  readonly der: Uint8Array;
}

export interface FrameQuery {
  readonly job?: string | undefined;
  readonly shot?: string | undefined;
  readonly camera?: string | undefined;
  readonly mark?: Mark | undefined;
  /** `newest`: against the day, the newest first. */
  readonly order?: 'day' | 'newest' | undefined;
  /** Cursor: `next` of an earlier page in the same order. */
  readonly after?: string | undefined;
  /** 1 to 500. */
  readonly limit: number;
}

/** Bytes to send: at hand, or a whole file that does not change while it is read. */
export type Content =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  | { readonly kind: 'file'; readonly path: string };

export interface FirstView {
  readonly content: Content;
  /** `image/jpeg`, as a rule. */
  readonly contentType: string;
  /** Rises when a larger preview replaces this one, within one run of the station. */
  readonly version: number;
}

/** Layout pictures of shots. */
export interface LayoutCalls {
  /**
   * Keeps the picture and makes it the shot's. Rejects `file-empty`, `not-a-picture`, `picture-is-raw`, `picture-too-large`,
   * `picture-cannot-decode`, `version-changed`, `job-finished`, `disk-full`.
   */
  putLayout(code: string, shot: string, bytes: Uint8Array, by: PatchBy): Promise<Job | null>;
  /** Null where there is no such job or shot. */
  layout(
    code: string,
    shot: string,
    query: Pick<PictureQuery, 'width' | 'format'>,
  ): Promise<PictureAnswer | null>;
}

export interface PictureQuery {
  /** Longest width wanted, pixels of the upright picture; undefined for full size. */
  readonly width?: number | undefined;
  readonly format: PictureFormat;
  /** Hash of a look; undefined for the frame's own. */
  readonly look?: string | undefined;
}

export type PictureFormat = 'jpeg' | 'webp' | 'png';

export type PictureAnswer =
  | {
      readonly kind: 'picture';
      readonly content: Content;
      readonly contentType: string;
      /** Hash of original, look, size and format; letters, digits and `-._:`. */
      readonly etag: string;
    }
  | { readonly kind: 'none'; readonly finding: Finding };

/** A part of the upright picture at full size, whole pixels from its left top. */
export interface RegionQuery {
  readonly leftPx: number;
  readonly topPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Pixels wanted per pixel of the region: 1 or less. */
  readonly scale: number;
  readonly format: PictureFormat;
  /** Hash of a look; undefined for the frame's own. */
  readonly look?: string | undefined;
}

export const regionSources = ['raw', 'raster', 'preview'] as const;

export interface RegionPicture extends Extract<PictureAnswer, { readonly kind: 'picture' }> {
  /**
   * `raw` and `raster`: developed from the original, or the camera's own finished picture. `preview`: cut out of a file
   * that is arriving or cannot be developed, with fewer pixels than were asked for where it is coarser.
   */
  readonly source: (typeof regionSources)[number];
}

export type RegionAnswer = RegionPicture | Extract<PictureAnswer, { readonly kind: 'none' }>;

/** What of the light before any look is wanted. */
export type SceneQuery =
  | { readonly kind: 'whole'; readonly widthPx: number }
  /** A square of the upright picture at full size, pixel for pixel. */
  | { readonly kind: 'tile'; readonly edgePx: number; readonly column: number; readonly row: number };

export type SceneAnswer = PictureAnswer;

export interface Original {
  readonly path: string;
  readonly sizeBytes: number;
  /** 64 lower-case hexadecimal digits. */
  readonly sha256: string;
}
