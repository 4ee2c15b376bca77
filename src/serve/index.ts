/** serve: the station by HTTP - calls, events, pictures, originals, the page. */

export type { ClientCalls } from './client-calls.ts';
export { createEventLog, type EventLog, type EventLogOptions } from './core/event-log.ts';
export { defaultWebLimits, type WebLimits } from './core/limits.ts';
export type { Scope, Share, Who } from './core/who.ts';
export type { DeliveryCalls, DeliveryWish } from './delivery-calls.ts';
export type {
  Content,
  FirstView,
  FrameQuery,
  LayoutCalls,
  Original,
  PictureAnswer,
  PictureFormat,
  PictureQuery,
  RegionAnswer,
  RegionPicture,
  RegionQuery,
  RootCertificate,
  SceneAnswer,
  SceneQuery,
  StationDesk,
} from './desk.ts';
export type { DestinationCalls } from './destination-calls.ts';
export { type DoorErrorCode, doorErrors, type WebProblem, webProblems } from './errors.ts';
export type {
  FrameChoiceCalls,
  JobCalls,
  PatchBy,
  ScaleCalls,
  ShotListFile,
  StrikeCalls,
  TargetCalls,
} from './job-calls.ts';
export type { EnterAnswer, EnteredLink, Line, LinkCalls, LinkHolder } from './link-calls.ts';
export type { LinkDoor, LinkDoorOptions } from './link-door.ts';
export type { LookCalls, TryAnswer, TryWish } from './look-calls.ts';
export type { MetadataCalls } from './metadata-calls.ts';
export type { ContactSheetAnswer, ContactWish, PaperCalls, PaperWish } from './paper-calls.ts';
export type { AgreementCalls, RemarkCalls } from './remark-calls.ts';
export { startWebDoor, type WebDoor, type WebDoorOptions } from './web-door.ts';
export type { WebLog, WebLogEntry } from './web-log.ts';
