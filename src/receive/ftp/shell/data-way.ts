import type { Socket } from 'node:net';

/** How one data connection comes about: the client dials a port of ours, or we dial one of the client's. */
export interface DataWay {
  /** Settles true once the data connection is there; false where it cannot be had, or {@link close} came first. */
  arrived(): Promise<boolean>;
  /** The data connection, paused and unread, for the caller to keep; null where there is none. */
  take(): Socket | null;
  /** Gives up the way and drops a connection that nobody took. */
  close(): void;
}
