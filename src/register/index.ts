/** register: tables over the journal and what was found out about the frames; may be lost and rebuilt at any time. */
export type { RegisterErrorCode } from './errors.ts';
export type { LitFrameRow, LitFramesQuery } from './light-queries.ts';
export type { RegisterRecord } from './records.ts';
export { openRegister, type Register, rebuildRegister } from './register.ts';
export {
  type BriefFile,
  type BriefFrame,
  type BriefFramesPage,
  type CameraRow,
  type CopyRow,
  type FileRow,
  type FrameFacts,
  type FrameRow,
  type FrameRowTimes,
  type FramesPage,
  type FramesQuery,
  type JobRow,
  type JsonObject,
  type JsonValue,
  type LookRow,
  pageFramesMax,
  type SeenInPicture,
} from './rows.ts';
export type { ArrivalRowState } from './tables.ts';
