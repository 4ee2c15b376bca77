import { type EpochMs, epochMsToRfc3339 } from '../base/index.ts';
import type { Frame, FrameVerdict } from '../contract/index.ts';
import {
  type CaptureFacts,
  type ExpectedFiles,
  markOfXmpRating,
  type SettingChange,
  type Verdict,
} from '../facts/index.ts';
import { covers, trayCode } from '../job/index.ts';
import { type ArrivedFacts, judgeArrived, type MissingPartner, missingPartner } from '../judge/index.ts';
import { counterOf } from '../metadata/index.ts';
import type { FrameRow } from '../register/index.ts';
import { copyIn, type FileSurroundings, type LookedAtFile, lookedAt, mainFile } from './looked-at-file.ts';
import { pictureOfRow } from './picture-of-row.ts';
import { sidecarOf } from './rating.ts';
import type { FrameLimits } from './readings/frame-limits.ts';
import { pixelFigures } from './readings/pixel-figures.ts';
import { pixelVerdicts } from './readings/pixel-verdicts.ts';
import { mmPerPxOf } from './readings/scale-of.ts';
import { remarkShape } from './remarks/remark-shape.ts';

/** What a frame's row does not say of itself. */
export interface FrameSurroundings extends FileSurroundings {
  /** What the camera was to send of a frame that was kept then. */
  readonly expects: (camera: string, keptMs: EpochMs) => ExpectedFiles | null;
  /** What its readings are held against. */
  readonly limits: (row: FrameRow) => FrameLimits;
  readonly now: () => EpochMs;
}

/**
 * The contract's frame out of a register row and what is known of its files while they arrive; null for a frame
 * without a file to show. `settings`: what its camera is set otherwise to than for the reference of its shot.
 */
export function frameOfRow(
  row: FrameRow,
  about: FrameSurroundings,
  settings: readonly SettingChange[],
): Frame | null {
  const looked = row.files.flatMap((file) => lookedAt(file, about));
  const files = looked.map(({ file }) => file);
  const main = mainFile(looked);
  if (main === null) return null;
  const limits = about.limits(row);
  const pixels = pixelVerdicts(row, limits, settings);
  const verdicts = {
    arrived: verdictShape(judgeArrived(arrivedFacts(row, main, about))),
    sharp: verdictShape(pixels.sharp),
    exposed: verdictShape(pixels.exposed),
    inPlace: verdictShape(pixels.inPlace),
    colour: verdictShape(pixels.colour),
  };
  return {
    id: row.id,
    job: row.job,
    shot: row.shot,
    shotless: shotlessOf(row),
    camera: row.camera,
    // Of the name as it is now: a camera may rename after the upload.
    counter: counterOf(row.name),
    name: row.name,
    kind: row.kind ?? 'unknown',
    files,
    times: timesOf(row, about),
    capture: captureOf(row.capture),
    picture: pictureOfRow(row),
    readings: { ...arrivalFigures(main), ...pixelFigures(row, mmPerPxOf(row, limits.scale)) },
    verdicts,
    heldAgainst: heldAgainst(limits),
    slate: slateOf(row),
    suggestedMark: suggestedMark(row),
    sidecar: sidecarShape(row),
    mark: row.mark,
    purpose: row.purpose,
    spot: row.spot,
    look: lookOf(row, limits),
    acceptances: row.acceptances.map(({ atMs, ...acceptance }) => ({
      ...acceptance,
      at: epochMsToRfc3339(atMs),
      covers: covers(acceptance, verdicts[acceptance.question].judgement),
    })),
    mutes: [...limits.mutes],
    share: row.share,
    remarks: row.remarks.map(remarkShape),
    version: row.version,
  };
}

function shotlessOf({ job, shot, placedBy, shotless }: FrameRow): Frame['shotless'] {
  if (shot !== null || job === trayCode) return null;
  return placedBy === 'arrival' ? (shotless ?? 'unknown') : `by-${placedBy}`;
}

/**
 * A suggestion and no mark: a button on a camera is pressed by accident, and a mark decides what is handed over. It is made
 * until a person has said anything, be it that the frame has no mark.
 */
function suggestedMark({ marked, capture }: FrameRow): Frame['suggestedMark'] {
  if (marked || capture?.rating === undefined) return null;
  const mark = markOfXmpRating(capture.rating);
  return mark === 'none' ? null : mark;
}

/** A sidecar that comes after a person's word neither changes it nor is passed over: the page shows both. */
function sidecarShape(row: FrameRow): Frame['sidecar'] {
  const words = row.capture?.sidecar;
  const file = sidecarOf(row);
  if (words === undefined || file === undefined) return null;
  const { rating, title, description, creator, rights } = words;
  const mark = rating === undefined ? null : markOfXmpRating(rating);
  const isLater = row.markedMs !== null && file.keptMs !== null && file.keptMs > row.markedMs;
  return {
    name: file.name,
    rating: rating ?? null,
    mark,
    // 0 is no word: most programs write it into a sidecar of a frame that nobody rated.
    differs: isLater && mark !== null && mark !== 'none' && mark !== row.mark,
    title: title ?? null,
    description: description ?? null,
    creator: creator ?? null,
    rights: rights ?? null,
  };
}

function lookOf(row: FrameRow, { look }: FrameLimits): Frame['look'] {
  const { id, name, version, hash, from, wish } = look;
  return { own: row.look, id, name, version, hash, from, wish };
}

function heldAgainst({ place, counted }: FrameLimits): Frame['heldAgainst'] {
  return {
    reference: place?.frame ?? null,
    layout: place?.layout ?? false,
    target: counted?.frame ?? null,
  };
}

/** What was seen held into the picture; taken back, it says so. */
function slateOf({ seen, slate }: FrameRow): Frame['slate'] {
  const finding = seen?.finding ?? null;
  if (finding === null) return null;
  const takenBack = /-(now|from-here)$/.test(finding.code) && slate?.inForce !== true;
  return { code: takenBack ? 'slate.taken-back' : finding.code, args: { ...finding.args } };
}

function arrivedFacts(
  row: FrameRow,
  { file, original, badCopyIn, fromFolder, tookMs }: LookedAtFile,
  about: FrameSurroundings,
): ArrivedFacts {
  return {
    state: file.state,
    bytes: file.size,
    expectedBytes: file.expectedSize,
    tookMs,
    copies: file.copies,
    copiesBeside: file.places.length - file.copies,
    badCopyIn,
    fromFolder,
    missing: missingOf(row, about),
    original: original === null ? null : { trouble: original, copyIn: copyIn(file) },
  };
}

function missingOf(
  { camera, files, kind, times }: FrameRow,
  about: FrameSurroundings,
): MissingPartner | null {
  if (times.keptMs === null) return null;
  return missingPartner({
    names: files.map(({ name }) => name),
    kind,
    expects: about.expects(camera, times.keptMs),
    keptMs: times.keptMs,
    nowMs: about.now(),
  });
}

/** Of the file the frame is shown by: a sidecar may come minutes before it, or after. */
function arrivalFigures({ file, tookMs }: LookedAtFile): Record<string, number> {
  const size = { sizeMB: file.size / 1e6 };
  return tookMs === null || tookMs <= 0
    ? size
    : { ...size, arrivalS: tookMs / 1000, lineMBPerS: file.size / tookMs / 1000 };
}

function timesOf(row: FrameRow, about: FrameSurroundings): Frame['times'] {
  return {
    shutter: momentOrNull(row.shutterMs),
    began: momentOrNull(row.times.beganMs),
    firstByte: momentOrNull(row.times.firstByteMs ?? beganMs(row, about)),
    firstView: momentOrNull(row.times.firstViewMs),
    lastByte: momentOrNull(row.times.lastByteMs),
    kept: momentOrNull(row.times.keptMs),
    rendered: momentOrNull(row.times.renderedMs),
    judged: momentOrNull(row.times.judgedMs),
  };
}

/** The register hears of the first byte with the last; until then a frame's place in the day is when it began. */
function beganMs(row: FrameRow, { live }: FrameSurroundings): EpochMs | null {
  const moments = row.files.flatMap(({ arrival }) => live(arrival)?.startedMs ?? []);
  return moments.length === 0 ? null : Math.min(...moments);
}

export function momentOrNull(atMs: EpochMs | null): string | null {
  return atMs === null ? null : epochMsToRfc3339(atMs);
}

function captureOf(facts: CaptureFacts | null): Frame['capture'] {
  return {
    cameraMake: facts?.cameraMake ?? null,
    cameraModel: facts?.cameraModel ?? null,
    lensModel: facts?.lensModel ?? null,
    exposureTimeS: facts?.exposureTimeS ?? null,
    fNumber: facts?.fNumber ?? null,
    sensitivity: facts?.sensitivity ?? null,
    focalLengthMm: facts?.focalLengthMm ?? null,
  };
}

function verdictShape({ judgement, findings, figure }: Verdict): FrameVerdict {
  return {
    judgement,
    findings: findings.map(({ code, args }) => ({ code, args: { ...args } })),
    figure: figure === undefined ? null : { ...figure },
  };
}
