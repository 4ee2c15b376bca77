import { KiB, MiB } from '../../../base/index.ts';
import type { DoorLimits } from '../../core/limits.ts';

/**
 * Every bound a stranger meets at the SFTP door. Each number says why it is what it is; a test sits just below and
 * just above each. Names that the FTP door has too mean the same.
 */
export interface SftpLimits extends DoorLimits {
  /** Bytes of one SFTP packet without its length. What OpenSSH takes (SFTP_MAX_MSG_LENGTH, sftp-common.h). */
  readonly packetBytesMax: number;
  /** Requests of one session that may be under way. OpenSSH sends 64 and waits; beyond, the channel is not read. */
  readonly requestsMax: number;
  /** Requests that may wait for one handle: WRITEs behind the opening of their file, 255 kB each. */
  readonly requestsPerHandleMax: number;
  /** Open handles of one session, files and listings. A client uses one or two; OpenSSH's own server has 100. */
  readonly handlesMax: number;
  /** Sessions of one connection at a time. Clients open one, and another for a second window. */
  readonly sessionsMax: number;
  /**
   * Bytes that may wait for a gap of their file to be filled, all files of the door together. Clients that write in
   * parallel are at most their own window ahead: 2 MB with 64 requests of 32 kB, and 16 files may do so at once.
   */
  readonly earlyBytesMax: number;
  /** Of these, for one file: 64 requests of the largest packet. What lies further ahead is no parallel upload. */
  readonly earlyBytesPerFileMax: number;
  /** Pieces that may wait so for one file: many tiny ones would cost more memory than they hold. */
  readonly earlyPiecesPerFileMax: number;
  /** Entries sent in one answer to READDIR; about 25 kB, so that every client takes it. */
  readonly namesPerAnswerMax: number;
  /** From the connection to the log-in, in all: key exchange and a hand-typed password fit. */
  readonly loginMs: number;
  /** Wrong passwords of one connection (RFC 4252 section 4 recommends a limit; 20 there, we are used to 4). */
  readonly loginFailuresMax: number;
  /** Public keys one connection may offer: an agent holds a handful and offers each. */
  readonly keyOffersMax: number;
  readonly loginDelayMs: number;
  readonly loginDelayMaxMs: number;
  /** Silence of a logged-in client, also with a file open; whether it lives at all, keep-alive asks meanwhile. */
  readonly idleMs: number;
  /** Between two questions whether a silent client is still there; after three without an answer it is not. */
  readonly keepAliveMs: number;
  readonly giveWayMs: number;
  /** Bytes of answers that may wait for a client to take them before nothing more of it is heard. */
  readonly unsentBytesMax: number;
  /** Bytes a client may send beyond the window it was given before it is cut off (RFC 4254 section 5.2). */
  readonly beyondWindowBytesMax: number;
  readonly lingerMs: number;
}

export const defaultSftpLimits: SftpLimits = Object.freeze({
  packetBytesMax: 256 * KiB,
  requestsMax: 64,
  requestsPerHandleMax: 8,
  handlesMax: 32,
  sessionsMax: 4,
  earlyBytesMax: 64 * MiB,
  earlyBytesPerFileMax: 16 * MiB,
  earlyPiecesPerFileMax: 1024,
  namesPerAnswerMax: 100,
  nameBytesMax: 255,
  pathDepthMax: 16,
  connectionsMax: 120,
  connectionsPerAddressMax: 40,
  connectionsReserved: 40,
  knownAddressesMax: 256,
  failingAddressesMax: 4096,
  loginMs: 60_000,
  loginFailuresMax: 4,
  keyOffersMax: 10,
  loginFailuresPerMinuteMax: 20,
  loginDelayMs: 500,
  loginDelayMaxMs: 8_000,
  idleMs: 15 * 60_000,
  keepAliveMs: 15_000,
  giveWayMs: 3_000,
  changesPerSecondMax: 20,
  changesAtOnceMax: 2_000,
  bufferBytes: 1 * MiB,
  buffersPerUpload: 4,
  flushAfterMs: 50,
  unsentBytesMax: 1 * MiB,
  beyondWindowBytesMax: 8 * MiB,
  lingerMs: 2_000,
});
