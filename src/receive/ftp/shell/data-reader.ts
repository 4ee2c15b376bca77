import { Socket } from 'node:net';
import { sayGoodbye } from './goodbye.ts';
import { takeHandle } from './take-handle.ts';
import { SecuredData } from './tls/secured-data.ts';

export interface DataSink {
  /** Where the next bytes go; never empty. */
  room(): Uint8Array;
  /** That many bytes of {@link room} were filled. False: stop until {@link DataReader.goOn}. */
  received(bytes: number): boolean;
  /**
   * The connection ended: in order (FIN, under TLS close_notify), under TLS by FIN alone, or it broke (RST, time-out of
   * the system). Said once.
   */
  ended(how: 'closed' | 'unclosed' | 'reset'): void;
}

export interface DataReader {
  goOn(): void;
  /** Closes the connection; the sink hears nothing more. */
  destroy(): void;
}

/**
 * Reads an accepted, still paused connection into the memory its sink provides.
 *
 * The system's handle is moved into a socket of our own that reads into given memory; measured, this is half as fast
 * again as `data` events, which allocate for each read. Where a handle cannot be had, `data` events are copied.
 */
export function readData(accepted: Socket, sink: DataSink): DataReader {
  if (accepted instanceof SecuredData) return readSecured(accepted, sink);
  const handle = takeHandle(accepted);
  return handle === null ? readByEvents(accepted, sink) : readByHandle(handle, sink);
}

function readByHandle(handle: object, sink: DataSink): DataReader {
  const options = {
    allowHalfOpen: true,
    // Long in use within Node (cluster, child processes) but left out of its types, hence the variable.
    handle,
    onread: { buffer: () => sink.room(), callback: (bytes: number) => sink.received(bytes) },
  };
  const socket = new Socket(options);
  return watch(socket, sink);
}

function readByEvents(socket: Socket, sink: DataSink): DataReader {
  copyEvents(socket, sink);
  return watch(socket, sink);
}

function copyEvents(socket: Socket, sink: DataSink): void {
  socket.on('data', (chunk: Buffer) => {
    let goOn = true;
    for (let at = 0; at < chunk.length; ) {
      const room = sink.room();
      const part = chunk.subarray(at, at + room.length);
      room.set(part);
      goOn = sink.received(part.length);
      at += part.length;
    }
    if (!goOn) socket.pause();
  });
}

/** Patience with a client that does not close its side of an ended data connection. */
const lingerMs = 2_000;

/**
 * TLS proves its own end, so the system is not asked about resets. A close_notify is answered by ours (RFC 8446 section
 * 6.1), which also closes TCP from this side; the rest of the connection then dies by itself.
 */
function readSecured(data: SecuredData, sink: DataSink): DataReader {
  let open = true;
  const end = (): void => {
    if (open) sink.ended(data.endedHow);
    open = false;
  };
  const endInOrder = (): void => {
    data.end();
    end();
  };
  copyEvents(data, sink);
  data.on('end', endInOrder);
  data.on('close', end);
  // An empty file may have ended before anybody listened: Node tells an end that has no bytes before it at once.
  if (data.readableEnded) process.nextTick(endInOrder);
  else if (data.destroyed) process.nextTick(end);
  else data.resume();
  return {
    goOn: () => {
      data.resume();
    },
    destroy: () => {
      open = false;
      if (data.readableEnded) sayGoodbye(data, lingerMs);
      else data.destroy();
    },
  };
}

function watch(socket: Socket, sink: DataSink): DataReader {
  let open = true;
  const end = (how: 'closed' | 'reset') => {
    if (open) sink.ended(how);
    open = false;
  };
  socket.on('end', () => tellReset(socket, end));
  socket.on('error', () => end('reset'));
  socket.on('close', () => end('reset'));
  socket.resume();
  return {
    goOn: () => {
      socket.resume();
    },
    destroy: () => {
      open = false;
      socket.destroy();
    },
  };
}

/**
 * Tells an end from a reset that looks like one. Where a reset comes while bytes are still unread, libuv gives the
 * bytes and then an end (uv__stream_io on POLLHUP, seen on Linux with Node 20); a cut file would pass for a whole one.
 * The system knows better: a write of no bytes fails on a reset connection and does nothing on a sound one.
 */
function tellReset(socket: Socket, end: (how: 'closed' | 'reset') => void): void {
  socket.write(new Uint8Array(0), (trouble) => {
    end(trouble === null || trouble === undefined ? 'closed' : 'reset');
  });
}
