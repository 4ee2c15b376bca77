import type { Socket } from 'node:net';

/**
 * Takes the system's handle out of a socket and lets the empty shell go; null where there is none to be had.
 *
 * Node reads straight into given memory (`onread`) only for sockets it is told to when they are made, and a server
 * makes them itself. So the handle is moved into a socket of our own.
 */
export function takeHandle(socket: Socket): object | null {
  // Not in Node's types: every net.Socket keeps its handle there.
  const carrier = socket as unknown as { _handle?: object | null };
  const handle = carrier._handle ?? null;
  if (handle === null) return null;
  carrier._handle = null;
  socket.destroy();
  return handle;
}
