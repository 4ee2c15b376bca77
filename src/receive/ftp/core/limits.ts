import { KiB, MiB } from '../../../base/index.ts';
import type { DoorLimits } from '../../core/limits.ts';

/**
 * Every bound a stranger meets at the FTP door. Each number says why it is what it is; a test sits just below and
 * just above each.
 */
export interface FtpLimits extends DoorLimits {
  /** Bytes of one command line without its end. 4096: the longest path (16 names of 255 bytes) with a verb fits. */
  readonly lineBytesMax: number;
  /**
   * Bytes of an over-long line, or of Telnet commands within one, that are thrown away before the client is sent off.
   * Enough to forgive one slip.
   */
  readonly lineSkipBytesMax: number;
  /** Lines that may wait while a command runs. Clients pipeline a handful; beyond that the socket is not read. */
  readonly waitingLinesMax: number;
  /** Clients turned away that are still waited for, so that they read why; in a flood the others are just cut off. */
  readonly farewellsMax: number;
  /** The log hears of one turned-away client in this time: a flood must not push everything else out of it. */
  readonly refusalReportMs: number;
  /** From the greeting to the log-in, in all: a hand-typed log-in fits, a drip of bytes does not. */
  readonly loginMs: number;
  /** A TLS handshake, control or data. A small processor takes seconds for one; a client that never goes on is closed. */
  readonly handshakeMs: number;
  /** Handshakes of control connections under way at once: each costs a signature of a millisecond or so. */
  readonly handshakesMax: number;
  /** Of these from one address: a camera begins one for each connection, four at most. */
  readonly handshakesPerAddressMax: number;
  /** Wrong log-ins of one connection; the last is answered 421 (RFC 2577 section 5 asks for a small number). */
  readonly loginFailuresMax: number;
  /** Wait before a wrong log-in is answered; doubles with each failure of the address. */
  readonly loginDelayMs: number;
  /** Where the doubling ends: longer would outlast the patience of a client with a mistyped password. */
  readonly loginDelayMaxMs: number;
  /** Silence of a logged-in client. RFC 1123 section 4.1.3.2 asks for at least 5 minutes; a set pauses longer. */
  readonly idleMs: number;
  /** Wait for the data connection after STOR or LIST. A sleeping Wi-Fi wakes within seconds. */
  readonly dataConnectMs: number;
  /** Silence of a data connection. TCP's own retransmission gives up later (RFC 1122 section 4.2.3.5: 100 s). */
  readonly stallMs: number;
  /**
   * Time in which an upload must bring {@link crawlBytesMin}: a drip that is never silent holds a place and its buffers
   * for ever. Time in which the disk holds the line up does not count.
   */
  readonly crawlMs: number;
  /** 64 KiB in 5 minutes is a frame of 25 MB in a day and a third: no line that anybody shoots over. */
  readonly crawlBytesMin: number;
  /**
   * Silence after which an upload gives way to the same file from the same camera. A client that begins a file again
   * has lost the first connection, though that may still look alive here; a living line is not silent for 3 s.
   */
  readonly giveWayMs: number;
  /** Entries that STAT tells in one reply, which is held in memory until it is read; LIST has no such bound. */
  readonly statEntriesMax: number;
  /** Patience with a client that does not close after our last reply. */
  readonly lingerMs: number;
}

export const defaultFtpLimits: FtpLimits = Object.freeze({
  lineBytesMax: 4 * KiB,
  lineSkipBytesMax: 256 * KiB,
  waitingLinesMax: 32,
  nameBytesMax: 255,
  pathDepthMax: 16,
  connectionsMax: 120,
  connectionsPerAddressMax: 40,
  connectionsReserved: 40,
  knownAddressesMax: 256,
  farewellsMax: 64,
  refusalReportMs: 10_000,
  loginMs: 60_000,
  handshakeMs: 20_000,
  handshakesMax: 40,
  handshakesPerAddressMax: 8,
  loginFailuresMax: 4,
  loginFailuresPerMinuteMax: 20,
  failingAddressesMax: 4096,
  loginDelayMs: 500,
  loginDelayMaxMs: 8_000,
  idleMs: 15 * 60_000,
  dataConnectMs: 30_000,
  stallMs: 60_000,
  crawlMs: 5 * 60_000,
  crawlBytesMin: 64 * KiB,
  giveWayMs: 3_000,
  changesPerSecondMax: 20,
  changesAtOnceMax: 2_000,
  statEntriesMax: 1_000,
  bufferBytes: 1 * MiB,
  buffersPerUpload: 4,
  flushAfterMs: 50,
  lingerMs: 2_000,
});
