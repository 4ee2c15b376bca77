/** From a recipe to the files of a frame: what can be done before the shutter, and what only after it. */
import type { EpochMs } from '../base/index.ts';
import { exifTimeAt } from './clock.ts';
import { type CameraBody, cameraBody } from './core/camera-body.ts';
import { settings } from './core/camera-model.ts';
import type { Capture, CaptureSettings } from './core/capture.ts';
import { type FileKind, fileExtensions } from './core/file-kinds.ts';
import { pictureFacts } from './core/frame-faults.ts';
import type { FrameRecipe } from './core/frame-plan.ts';
import { type FrameSize, frameSize } from './core/frame-size.ts';
import { type FrameTruth, frameTruth } from './core/frame-truth.ts';
import { writeJpegFile } from './core/jpeg-file.ts';
import type { RawData } from './core/raw-shape.ts';
import { writeStandInRaw } from './core/raw-writer.ts';
import { orientationOf } from './core/set-facts.ts';
import { writeXmpSidecar } from './core/xmp-sidecar.ts';
import { type CameraJpegs, encodeJpegs } from './embedded-jpeg.ts';
import { createRenderCrew } from './render-crew.ts';
import type { ExposeAnswer } from './render-jobs.ts';
import { Studio } from './studio.ts';

/** Everything of a frame but its moment and its camera. */
export interface ExposedFrame {
  readonly recipe: FrameRecipe;
  readonly size: FrameSize;
  readonly data: RawData;
  readonly jpegs: CameraJpegs;
  readonly truth: FrameTruth;
}

export interface FrameFile {
  readonly kind: FileKind;
  /** `DNG` */
  readonly extension: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** How the raw data is written: `none` as it is, `lossless-jpeg` in about half the bytes. */
export type RawCompression = RawData['compression'];

/**
 * Exposes and compresses: the slow part, which a camera's own chips do in no time. So it is done before the shutter.
 * The mosaic itself is let go where it is not in the file.
 */
export async function exposeAhead(
  studio: Studio,
  size: FrameSize,
  recipe: FrameRecipe,
  compression: RawCompression,
): Promise<ExposedFrame> {
  return await finishExposure(await studio.expose(recipe, compression === 'lossless-jpeg'), size, recipe);
}

async function finishExposure(
  { mosaic, pressed, half, full }: ExposeAnswer,
  size: FrameSize,
  recipe: FrameRecipe,
): Promise<ExposedFrame> {
  return {
    recipe,
    size,
    data:
      pressed === null ? { compression: 'none', mosaic } : { compression: 'lossless-jpeg', bytes: pressed },
    jpegs: await encodeJpegs(half, full),
    truth: frameTruth(recipe, size),
  };
}

/** The files of a frame in the order of `kinds`; `clockMs` is what the camera's clock says. */
export function frameFiles(
  frame: ExposedFrame,
  body: CameraBody,
  clockMs: EpochMs,
  kinds: readonly FileKind[],
): FrameFile[] {
  const capture: Capture = {
    body,
    shutter: exifTimeAt(clockMs),
    settings: settingsOf(frame.recipe),
    orientation: orientationOf(frame.recipe),
  };
  return kinds.map((kind) => ({
    kind,
    extension: fileExtensions[kind],
    bytes: fileBytes(frame, capture, kind),
  }));
}

/** What the dials stand at, be it by a fault. */
function settingsOf(recipe: FrameRecipe): CaptureSettings {
  const { sensitivity, autoBalance } = pictureFacts(recipe);
  return { ...settings, sensitivity, autoBalance };
}

function fileBytes(frame: ExposedFrame, capture: Capture, kind: FileKind): Uint8Array<ArrayBuffer> {
  const { data, jpegs, size } = frame;
  if (kind === 'xmp') return writeXmpSidecar(capture);
  if (kind === 'jpeg') {
    return writeJpegFile({ picture: jpegs.full, thumbnail: jpegs.dcfThumbnail, capture });
  }
  const { widthPx, heightPx } = size;
  return writeStandInRaw({
    data,
    widthPx,
    heightPx,
    previews: [jpegs.thumbnail, jpegs.preview, jpegs.full],
    capture,
  });
}

export interface Frame {
  /** A whole raw file. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly files: readonly FrameFile[];
  readonly truth: FrameTruth;
  /** The values in the file, for a check that a decoder gives back exactly these. RGGB, black not subtracted. */
  readonly mosaic: Uint16Array<ArrayBuffer>;
}

export interface RenderFrameOptions extends Partial<FrameRecipe> {
  /** Default 0.3: some two seconds of processor time; 0.05 to 0.1 is enough for most tests. */
  readonly sizeMegapixels?: number;
  /** When the shutter fired. Default 2026-10-01T08:00:00Z, so that two calls give the same bytes. */
  readonly shutterMs?: EpochMs;
  /** Default `lossless-jpeg`, as the stand-in sends. */
  readonly compression?: RawCompression;
}

const defaultShutterMs = 1_790_841_600_000;

/**
 * All files of one frame without a camera around it: renders on the caller's thread, keeps nothing. For tests and
 * small sizes; the same options give the same bytes.
 */
export async function renderFrame(options: RenderFrameOptions = {}): Promise<Frame> {
  const {
    sizeMegapixels = 0.3,
    shutterMs = defaultShutterMs,
    compression = 'lossless-jpeg',
    ...recipe
  } = options;
  const size = frameSize(sizeMegapixels);
  const studio = new Studio({
    crew: createRenderCrew(0),
    store: null,
    size,
    signal: new AbortController().signal,
    onProgress: () => {},
  });
  const whole = { ...plainRecipe, ...recipe };
  const answer = await studio.expose(whole, compression === 'lossless-jpeg');
  const exposed = await finishExposure(answer, size, whole);
  const files = frameFiles(exposed, cameraBody(1), shutterMs, ['raw', 'jpeg', 'xmp']);
  const bytes = files[0]?.bytes ?? new Uint8Array();
  return { bytes, files, truth: exposed.truth, mosaic: answer.mosaic };
}

const plainRecipe: FrameRecipe = {
  shot: 'mug',
  purpose: 'picture',
  exposureEv: 0,
  offsetPx: [0, 0],
  addedSigmaPx: 0,
  noiseSeed: 1,
  noise: true,
  faults: [],
};
