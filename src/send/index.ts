/** send: brings finished files to where they are handed over: a folder, an SFTP server, S3-compatible storage. */
export { type Next, SendFailure } from './core/failure.ts';
export { defaultSendLimits, type SendLimits } from './core/limits.ts';
export { type OpenOptions, openPlace } from './open.ts';
export type { FileToSend, OpenPlace, Proof, SendWatch, Sent } from './open-place.ts';
export { Sender, type SenderOptions } from './sender.ts';
export { type Tried, tryPlace } from './try-place.ts';
