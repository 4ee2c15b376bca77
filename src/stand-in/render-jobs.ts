/** The jobs a render worker takes. Codes lie in shared memory, so that no rendering is copied to be exposed or packed. */
import { deflateSync, inflateSync } from 'node:zlib';
import { exhaustive } from '../base/index.ts';
import { sampleBits } from './core/camera-model.ts';
import { cameraPicture, fullCameraPicture, type SmallPicture } from './core/camera-picture.ts';
import { exposeFrame } from './core/exposure.ts';
import type { FramePurpose, FrameRecipe, ShotName } from './core/frame-plan.ts';
import type { FrameSize } from './core/frame-size.ts';
import { codesToResiduals, residualsToCodes } from './core/kernels/residuals.ts';
import { encodeLosslessJpeg } from './core/lossless-jpeg.ts';
import { prepareScene, type Region, renderRegion, type SetScene } from './core/render-region.ts';
import { type SetVariant, variantName } from './core/set-variant.ts';

export type SharedCodes = Uint16Array<SharedArrayBuffer>;

export interface RenderRegionJob {
  readonly kind: 'render';
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  readonly size: FrameSize;
  readonly variant: SetVariant;
  readonly region: Region;
}

export type RenderJob =
  | RenderRegionJob
  | {
      readonly kind: 'expose';
      readonly codes: SharedCodes;
      readonly size: FrameSize;
      readonly recipe: FrameRecipe;
      /** Whether to press the mosaic into lossless JPEG, too. */
      readonly pressed: boolean;
    }
  /** Makes a rendering small for the disk. */
  | { readonly kind: 'pack'; readonly codes: SharedCodes; readonly rowLength: number }
  /** Fills `codes` from packed bytes; answers whether they were whole and of this length. */
  | {
      readonly kind: 'unpack';
      readonly bytes: Uint8Array;
      readonly codes: SharedCodes;
      readonly rowLength: number;
    };

export interface ExposeAnswer {
  readonly kind: 'expose';
  readonly mosaic: Uint16Array<ArrayBuffer>;
  /** A lossless JPEG stream, or null where it was not asked for. */
  readonly pressed: Uint8Array<ArrayBuffer> | null;
  readonly half: SmallPicture;
  readonly full: SmallPicture;
}

/** Buffers of an answer are moved to the caller. */
export type RenderAnswer =
  | { readonly kind: 'render'; readonly codes: Uint16Array<ArrayBuffer> }
  | ExposeAnswer
  | { readonly kind: 'pack'; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly kind: 'unpack'; readonly whole: boolean };

/** One scene is kept prepared: bands of one shot follow each other. */
export interface SceneShelf {
  scene: SetScene | null;
}

export function runRenderJob(job: RenderJob, shelf: SceneShelf): RenderAnswer {
  switch (job.kind) {
    case 'render':
      return { kind: 'render', codes: renderRegion(sceneFor(job, shelf), job.region) };
    case 'expose':
      return expose(job);
    case 'pack':
      return { kind: 'pack', bytes: packCodes(job.codes, job.rowLength) };
    case 'unpack':
      return { kind: 'unpack', whole: unpackCodes(job.bytes, job.rowLength, job.codes) };
    default:
      return exhaustive(job);
  }
}

function expose(job: Extract<RenderJob, { kind: 'expose' }>): ExposeAnswer {
  const { widthPx, heightPx } = job.size;
  const mosaic = exposeFrame(job, job.recipe);
  return {
    kind: 'expose',
    mosaic,
    pressed: job.pressed
      ? encodeLosslessJpeg({ mosaic, widthPx, heightPx, bitsPerSample: sampleBits })
      : null,
    half: cameraPicture(mosaic, widthPx, heightPx),
    full: fullCameraPicture(mosaic, widthPx, heightPx),
  };
}

function sceneFor(job: RenderRegionJob, shelf: SceneShelf): SetScene {
  const kept = shelf.scene;
  const fits =
    kept?.shot === job.shot &&
    kept.purpose === job.purpose &&
    sameSize(kept.size, job.size) &&
    variantName(kept.variant) === variantName(job.variant);
  if (kept !== null && fits) return kept;
  const scene = prepareScene(job.shot, job.purpose, job.size, job.variant);
  shelf.scene = scene;
  return scene;
}

function sameSize(a: FrameSize, b: FrameSize): boolean {
  return a.widthPx === b.widthPx && a.heightPx === b.heightPx && a.marginPx === b.marginPx;
}

/** Level 1: residuals shrink to a fifth at once, and little more at any level. */
const packLevel = 1;

function packCodes(codes: SharedCodes, rowLength: number): Uint8Array<ArrayBuffer> {
  const residuals = new Uint8Array(codes.length * 2);
  codesToResiduals(codes, rowLength, residuals);
  return new Uint8Array(deflateSync(residuals, { level: packLevel }));
}

function unpackCodes(bytes: Uint8Array, rowLength: number, codes: SharedCodes): boolean {
  try {
    const residuals = inflateSync(bytes, { maxOutputLength: codes.length * 2 });
    if (residuals.length !== codes.length * 2) return false;
    residualsToCodes(residuals, rowLength, codes);
    return true;
  } catch {
    return false;
  }
}
