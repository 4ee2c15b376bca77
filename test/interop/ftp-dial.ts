import { once } from 'node:events';
import { createServer, type Socket } from 'node:net';

/** A client's own data port in active mode: waits for the door to dial. */
export interface Dialled extends AsyncDisposable {
  readonly port: number;
  /** The first connection that comes. */
  readonly connection: Promise<Socket>;
  /** How many came. */
  count(): number;
}

export async function awaitDial(host: string): Promise<Dialled> {
  let count = 0;
  const server = createServer((socket) => {
    count += 1;
    socket.on('error', () => {});
  });
  const connection = new Promise<Socket>((resolve) => server.once('connection', resolve));
  server.listen(0, host);
  await once(server, 'listening');
  return {
    port: portOf(server.address()),
    connection,
    count: () => count,
    [Symbol.asyncDispose]: async () => {
      server.close();
    },
  };
}

/** A port of the loopback interface on which nobody listens. */
export async function closedPort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const port = portOf(server.address());
  server.close();
  await once(server, 'close');
  return port;
}

function portOf(address: ReturnType<ReturnType<typeof createServer>['address']>): number {
  if (address === null || typeof address === 'string') throw new Error('the server listens on no port');
  return address.port;
}
