/** The jobs a render worker takes. Codes lie in shared memory, so that no rendering is copied to be exposed. */
import { cameraPicture, type SmallPicture } from './core/camera-picture.ts';
import { exposeFrame } from './core/exposure.ts';
import type { FramePurpose, FrameRecipe, ShotName } from './core/frame-plan.ts';
import type { FrameSize } from './core/frame-size.ts';
import { prepareScene, type Region, renderRegion, type SetScene } from './core/render-region.ts';

export type RenderJob =
  | {
      readonly kind: 'render';
      readonly shot: ShotName;
      readonly purpose: FramePurpose;
      readonly size: FrameSize;
      readonly region: Region;
    }
  | {
      readonly kind: 'expose';
      readonly codes: Uint16Array<SharedArrayBuffer>;
      readonly size: FrameSize;
      readonly recipe: FrameRecipe;
    };

/** Buffers of an answer are moved to the caller. */
export type RenderAnswer =
  | { readonly kind: 'render'; readonly codes: Uint16Array<ArrayBuffer> }
  | { readonly kind: 'expose'; readonly mosaic: Uint16Array<ArrayBuffer>; readonly picture: SmallPicture };

/** One scene is kept prepared: bands of one shot follow each other. */
export type SceneShelf = { scene: SetScene | null };

export function runRenderJob(job: RenderJob, shelf: SceneShelf): RenderAnswer {
  if (job.kind === 'render') {
    return { kind: 'render', codes: renderRegion(sceneFor(job, shelf), job.region) };
  }
  const mosaic = exposeFrame({ codes: job.codes, size: job.size }, job.recipe);
  return { kind: 'expose', mosaic, picture: cameraPicture(mosaic, job.size.widthPx, job.size.heightPx) };
}

function sceneFor(job: RenderJob & { readonly kind: 'render' }, shelf: SceneShelf): SetScene {
  const kept = shelf.scene;
  const fits = kept?.shot === job.shot && kept.purpose === job.purpose && sameSize(kept.size, job.size);
  if (kept !== null && fits) return kept;
  const scene = prepareScene(job.shot, job.purpose, job.size);
  shelf.scene = scene;
  return scene;
}

function sameSize(a: FrameSize, b: FrameSize): boolean {
  return a.widthPx === b.widthPx && a.heightPx === b.heightPx && a.marginPx === b.marginPx;
}
