import { createServer, type Socket } from 'node:net';
import { AddressBook } from '../../core/address-book.ts';
import type { DismissReason, DoorKeeper, KeyKeeper, ReportLine } from '../../core/door-keeper.ts';
import { openSharedBooks, type SharedBooks } from '../../core/shared-books.ts';
import { plainAddress } from '../../shell/addresses.ts';
import { BufferPool } from '../../shell/buffer-pool.ts';
import { listenOrExplain } from '../../shell/listening.ts';
import { Uploads } from '../../shell/uploads.ts';
import { EarlyRoom } from '../core/early-bytes.ts';
import { type DoorSetting, SshConnection } from './connection.ts';
import { type ResolvedSftpDoorOptions, resolveSftpDoorOptions, type SftpDoorOptions } from './options.ts';

/** An open SFTP door. */
export interface SftpDoor {
  /** The port it listens on. */
  readonly port: number;
  /** A camera that may not stay: its connections are closed; what is under way breaks off and stays resumable. */
  dismiss(camera: string, why: DismissReason): void;
  /**
   * Shuts the door: no new clients, files on their way end with `finish('stopping')`. Settles when every connection is
   * closed and every arrival finished.
   */
  close(): Promise<void>;
}

/** Uploads whose buffers are kept for the next frame: a few cameras at once. */
const uploadsKept = 4;

/**
 * Opens the SFTP door: SFTP version 3 (draft-ietf-secsh-filexfer-02) over SSH (RFC 4251 to 4254); see SPEC.md.
 *
 * `keeper` says who may come in and gives each camera its folder; `report` hears what happens on the line and must
 * not throw. Rejects `bad-option`, `port-in-use`, `port-forbidden`, or with the system's own error.
 */
export async function startSftpDoor(
  options: SftpDoorOptions,
  keeper: DoorKeeper & KeyKeeper,
  report: ReportLine,
): Promise<SftpDoor> {
  const resolved = resolveSftpDoorOptions(options);
  const shared = options.shared ?? openSharedBooks(resolved.limits);
  const hall = new Hall(resolved, shared, keeper, report);
  const server = createServer({ noDelay: true, keepAlive: true, keepAliveInitialDelay: 30_000 }, (socket) =>
    hall.admit(socket),
  );
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
  readonly #options: ResolvedSftpDoorOptions;
  readonly #setting: DoorSetting;
  readonly #report: ReportLine;
  readonly #inside = new Set<SshConnection>();
  #number = 0;

  constructor(
    options: ResolvedSftpDoorOptions,
    { logIns, budget }: SharedBooks,
    keeper: DoorKeeper & KeyKeeper,
    report: ReportLine,
  ) {
    const { limits, secrecy, oldCameras } = options;
    this.#options = options;
    this.#report = report;
    this.#setting = {
      limits,
      secrecy,
      oldCameras,
      keeper,
      book: new AddressBook(limits, logIns),
      uploads: new Uploads(),
      budget,
      pool: new BufferPool(limits.bufferBytes, limits.buffersPerUpload * uploadsKept),
      earlyRoom: new EarlyRoom(limits.earlyBytesMax),
    };
  }

  admit(socket: Socket): void {
    const address = plainAddress(socket.remoteAddress);
    const local = plainAddress(socket.localAddress);
    this.#number += 1;
    const { book } = this.#setting;
    if (!this.#options.mayServe(local)) {
      this.#turnAway(socket, { code: 'line.public-address', args: { address, local } });
    } else if (!book.enter(address)) {
      this.#turnAway(socket, { code: 'line.too-many-connections', args: { address } });
    } else {
      const connection = new SshConnection(socket, this.#number, this.#setting, this.#report);
      this.#inside.add(connection);
      connection.closed.then(() => {
        this.#inside.delete(connection);
        book.leave(address);
      });
    }
  }

  dismiss(camera: string, why: DismissReason): void {
    for (const connection of this.#inside) if (connection.camera === camera) connection.dismiss(why);
  }

  async empty(): Promise<void> {
    const inside = [...this.#inside];
    for (const connection of inside) connection.stop('stopping');
    await Promise.all(inside.map((connection) => connection.closed));
  }

  /** Before SSH has begun there is nothing to say in it. */
  #turnAway(socket: Socket, finding: Parameters<ReportLine>[0]['finding']): void {
    const address = plainAddress(socket.remoteAddress);
    socket.on('error', () => {});
    socket.destroy();
    this.#report({ camera: null, address, connection: this.#number, change: 'refused', finding });
  }
}
