/** receive: the doors a camera comes in by. Bytes in, replies out; what a file becomes is its folder's business. */
export type {
  Arrival,
  ArrivalEnd,
  ArrivalOutcome,
  CameraFolder,
  FolderEntry,
  FolderErrorCode,
  OpenHow,
} from './core/camera-folder.ts';
export type {
  AdmittedCamera,
  Credentials,
  DismissReason,
  DoorKeeper,
  KeyKeeper,
  KeyOffer,
  LineReport,
  ReportLine,
} from './core/door-keeper.ts';
export { openSharedBooks, type SharedBooks } from './core/shared-books.ts';
export { type ReceiveErrorCode, receiveErrorCodes } from './errors.ts';
export { defaultFolderLimits, type FolderLimits } from './folder/core/limits.ts';
export type { Proof } from './folder/core/stillness.ts';
export type { Prove } from './folder/shell/file-taker.ts';
export { type FilesTaken, type FilesToTake, takeFiles } from './folder/shell/take-files.ts';
export { type WatchedFolder, type WatchedFolderOptions, watchFolder } from './folder/shell/watched-folder.ts';
export { defaultFtpLimits, type FtpLimits } from './ftp/core/limits.ts';
export { type FtpDoor, startFtpDoor } from './ftp/shell/door.ts';
export type { FtpDoorOptions, PortRange } from './ftp/shell/options.ts';
export type { TlsIdentity, TlsOptions } from './ftp/shell/tls/options.ts';
export { defaultSftpLimits, type SftpLimits } from './sftp/core/limits.ts';
export { type SftpDoor, startSftpDoor } from './sftp/shell/door.ts';
export {
  type HostKeyKind,
  type HostKeyPrint,
  hostKeyKinds,
  makeHostKey,
  printHostKey,
} from './sftp/shell/host-keys.ts';
export type { SftpDoorOptions } from './sftp/shell/options.ts';
