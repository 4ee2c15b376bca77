/** station: configuration, wiring, start and stop. The only room that knows all others. */

export { bagOfJob, type JobBag } from './bags/bag-of-job.ts';
export { parseBind } from './bind-address.ts';
export { type Camera, type CameraAccess, protocols } from './cameras/core/camera.ts';
export type { DiaryLine } from './cameras/core/diary-line.ts';
export { readDiary } from './cameras/diary.ts';
export {
  type CameraKey,
  cameraKeyOf,
  cleanKeyLine,
  isPrivateKey,
  noKey,
  privateKeyGiven,
} from './cameras/public-key.ts';
export { changeCameraFile, noCamera, readCameraFile } from './cameras/roster-changes.ts';
export { addressForCameras } from './core/addresses.ts';
export {
  parsePort,
  parsePortRange,
  parseWatch,
  resolveOptions,
  type StationOptions,
  type StationWishes,
} from './core/options.ts';
export { DestinationBook } from './destinations/destination-book.ts';
export { testDestination } from './destinations/destination-desk.ts';
export type { SecretSource } from './destinations/secret-source.ts';
export { cardToTell } from './hand-over/card-told.ts';
export { putBackInHome } from './hand-over/put-back.ts';
export { readFirewallAgain } from './line/read-firewall-again.ts';
export { SheetBook } from './metadata/sheet-book.ts';
export { type RebuildProgress, type RebuildReport, rebuildHome } from './rebuild.ts';
export { readSettings } from './settings.ts';
export { type RunningStation, type StartOptions, startStation } from './start-station.ts';
export { readStationAddress } from './station-address.ts';
export type { StationLog } from './station-log.ts';
export { version } from './version.ts';
