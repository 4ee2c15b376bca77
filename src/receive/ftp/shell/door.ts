import { createServer, type Socket } from 'node:net';
import type { EpochMs } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import { AddressBook } from '../../core/address-book.ts';
import type { DismissReason, DoorKeeper, ReportLine } from '../../core/door-keeper.ts';
import { openSharedBooks } from '../../core/shared-books.ts';
import { plainAddress } from '../../shell/addresses.ts';
import { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { listenOrExplain } from '../../shell/listening.ts';
import { Uploads } from '../../shell/uploads.ts';
import { formatReply, reply } from '../core/reply.ts';
import type { DoorSetting } from './answers.ts';
import { ControlConnection } from './control-connection.ts';
import { sayGoodbye } from './goodbye.ts';
import { type FtpDoorOptions, resolveFtpDoorOptions } from './options.ts';
import { HandshakeBook } from './tls/handshake-book.ts';

/** An open FTP door. */
export interface FtpDoor {
  /** The port it listens on. */
  readonly port: number;
  /** A camera that may not stay: its connections are closed; what is under way breaks off and stays resumable. */
  dismiss(camera: string, why: DismissReason): void;
  /**
   * Shuts the door: no new clients, running uploads end with `finish('stopping')`, clients are told 421. Settles when
   * every connection is closed and every arrival finished.
   */
  close(): Promise<void>;
}

/**
 * Half open, so that what a client said before it closed is still answered. Keep-alive probes after half a minute find
 * a camera that was switched off long before its silence would.
 */
const serverOptions = {
  allowHalfOpen: true,
  noDelay: true,
  keepAlive: true,
  keepAliveInitialDelay: 30_000,
};

/** Uploads whose buffers are kept for the next frame: a few cameras at once. */
const uploadsKept = 4;

/**
 * Opens the FTP door (RFC 959 with RFC 1123, 2389, 2428, 2577, 2640 and 3659; see SPEC.md).
 *
 * `keeper` says who may come in and gives each camera its folder; `report` hears what happens on the line and must
 * not throw. Rejects `bad-option`, `port-in-use`, `port-forbidden`, or with the system's own error.
 */
export async function startFtpDoor(
  options: FtpDoorOptions,
  keeper: DoorKeeper,
  report: ReportLine,
): Promise<FtpDoor> {
  const resolved = resolveFtpDoorOptions(options);
  const { limits } = resolved;
  const { logIns, budget } = options.shared ?? openSharedBooks(limits);
  const setting: DoorSetting = {
    options: resolved,
    keeper,
    book: new AddressBook(limits, logIns),
    handshakes: new HandshakeBook(limits),
    uploads: new Uploads(),
    budget,
    pool: new BufferPool(limits.bufferBytes, limits.buffersPerUpload * uploadsKept),
  };
  const hall = new Hall(setting, report);
  const server = createServer(serverOptions, (socket) => {
    hall.admit(socket);
  });
  const port = await listenOrExplain(server, resolved.host, resolved.port);
  return {
    port,
    dismiss: (camera, why) => hall.dismiss(camera, why),
    close: async () => {
      const shut = new Promise<void>((resolve) => {
        server.close(() => resolve());
      });
      await hall.empty();
      await shut;
    },
  };
}

/** Everybody who came in by one door. */
class Hall {
  readonly #setting: DoorSetting;
  readonly #report: ReportLine;
  readonly #inside = new Set<ControlConnection>();
  readonly #toldMs = new Map<string, EpochMs>();
  #number = 0;
  #farewells = 0;

  constructor(setting: DoorSetting, report: ReportLine) {
    this.#setting = setting;
    this.#report = report;
  }

  admit(socket: Socket): void {
    const address = plainAddress(socket.remoteAddress);
    this.#number += 1;
    if (!this.#setting.options.mayServe(plainAddress(socket.localAddress))) {
      this.#shutOut(socket, address);
      return;
    }
    if (!this.#setting.book.enter(address)) {
      this.#turnAway(socket, address);
      return;
    }
    const connection = new ControlConnection(socket, this.#number, this.#setting, this.#report);
    this.#inside.add(connection);
    connection.closed.then(() => {
      this.#inside.delete(connection);
      this.#setting.book.leave(address);
    });
  }

  dismiss(camera: string, why: DismissReason): void {
    for (const connection of this.#inside) if (connection.camera === camera) connection.dismiss(why);
  }

  async empty(): Promise<void> {
    const inside = [...this.#inside];
    for (const connection of inside) connection.stop();
    await Promise.all(inside.map((connection) => connection.closed));
  }

  #turnAway(socket: Socket, address: string): void {
    const { farewellsMax, lingerMs } = this.#setting.options.limits;
    socket.on('error', () => {});
    // A client of an implicit door waits for TLS and would read clear words as damage.
    const isClear = this.#setting.options.tls?.start !== 'implicit';
    if (isClear && this.#farewells < farewellsMax) {
      this.#farewells += 1;
      socket.once('close', () => {
        this.#farewells -= 1;
      });
      socket.write(formatReply(reply(421, 'Too many connections. Try again later.')));
      sayGoodbye(socket, lingerMs);
    } else {
      socket.destroy();
    }
    this.#tellRefused(address, { code: 'line.too-many-connections', args: { address } });
  }

  /** Whoever scans a public address learns nothing, not even that this is FTP. */
  #shutOut(socket: Socket, address: string): void {
    const local = plainAddress(socket.localAddress);
    socket.on('error', () => {});
    socket.destroy();
    this.#tellRefused(address, { code: 'line.public-address', args: { address, local } });
  }

  /** One of each kind in a while: a flood must not push everything else out of the log. */
  #tellRefused(address: string, finding: Finding): void {
    const toldMs = this.#toldMs.get(finding.code);
    const atMs = nowMs();
    if (toldMs !== undefined && atMs - toldMs < this.#setting.options.limits.refusalReportMs) return;
    this.#toldMs.set(finding.code, atMs);
    this.#report({ camera: null, address, connection: this.#number, change: 'refused', finding });
  }
}
