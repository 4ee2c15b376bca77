/** workers: heavy work in threads of its own. */
export { type DevelopedFile, type DevelopFileOptions, developFile, resultName } from './develop-file.ts';
export { type DevelopPool, type DevelopPoolOptions, startDevelopPool } from './develop-pool.ts';
export { startThreadAhead } from './develop-thread.ts';
export { type WorkerErrorCode, workerErrors } from './errors.ts';
export { defaultExifToolLimits, type ExifToolLimits, ExifToolReader } from './exiftool-reader.ts';
export { ExifToolWriter } from './exiftool-writer.ts';
export type { FinishAnswer, FinishFormat, FinishJob, ProveAnswer, ProveJob } from './finish-messages.ts';
export { inspectOnDisk } from './inspect-on-disk.ts';
export { callOff, type JobBoard, type JobStage, newJobBoard, whereIs } from './job-board.ts';
export { type JudgedFile, judgeFile } from './judge-file.ts';
export type { JudgeAnswer, JudgeJob, PlaceAnswer, PlaceJob, PreviewPixels } from './judge-messages.ts';
export type { OutputWish } from './output-way.ts';
export {
  type LensWish,
  type LinearJob,
  type OutputFormat,
  outputFormats,
  type PictureFormat,
  type PreviewJob,
  pictureFormats,
  type RenderAnswer,
  type RenderJob,
  type ResizeJob,
  type SceneJob,
  type SmallerRendering,
} from './render-messages.ts';
export { layoutEdgePxMax, layoutPixelsMax } from './sight/layout-bounds.ts';
export type { CheckPictureAnswer, LookAnswer } from './sight/messages.ts';
export { type SightPool, type SightPoolOptions, startSightPool } from './sight/sight-pool.ts';
export { profileBytesMax, usableProfile } from './usable-profile.ts';
