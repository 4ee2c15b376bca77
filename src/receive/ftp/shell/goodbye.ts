import type { Socket } from 'node:net';

/**
 * Closes a connection so that what was written last still arrives: our side ends in order, what the client still says
 * is thrown away (unread bytes would turn the close into a reset that overtakes the reply), and a client that does not
 * close its side is cut off after `lingerMs`.
 */
export function sayGoodbye(socket: Socket, lingerMs: number): void {
  socket.removeAllListeners('data');
  socket.resume();
  socket.end();
  const patience = setTimeout(() => socket.destroy(), lingerMs);
  socket.on('close', () => clearTimeout(patience));
}
