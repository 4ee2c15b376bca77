import type { FoundCode, SmallPicture } from '../../slate/index.ts';

/** What a sight worker does: name to what goes in and what comes out. */
export interface SightJobs {
  readonly look: { readonly job: LookJob; readonly answer: LookAnswer };
  readonly 'check-picture': { readonly job: CheckPictureJob; readonly answer: CheckPictureAnswer };
}

/** Looks at a finished picture for what is held into it. */
export interface LookJob {
  /** A JPEG, PNG, WebP or TIFF: on disk, or its bytes, which are copied to the worker. */
  readonly picture: { readonly path: string } | { readonly bytes: Uint8Array };
  /** Whether a small picture is wanted beside the codes. */
  readonly small: boolean;
}

export interface LookAnswer {
  readonly name: 'look';
  /** Every QR code that could be read, ours or not, corners in pixels of the picture that was looked at. */
  readonly codes: readonly FoundCode[];
  /** The picture that was looked at: reduced, never enlarged. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** 64 pixels long; null where it was not wanted. */
  readonly small: SmallPicture | null;
}

/** Whether bytes of a stranger are a picture we keep as a layout. */
export interface CheckPictureJob {
  readonly bytes: Uint8Array;
}

export interface CheckPictureAnswer {
  readonly name: 'check-picture';
  readonly kind: 'jpeg' | 'png' | 'webp' | 'tiff';
  readonly widthPx: number;
  readonly heightPx: number;
}

export type SightTask = {
  readonly [Name in keyof SightJobs]: { readonly name: Name; readonly job: SightJobs[Name]['job'] };
}[keyof SightJobs];

export type SightAnswer = SightJobs[keyof SightJobs]['answer'];
