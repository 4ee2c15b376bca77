import { connect, createServer, type Server, type Socket } from 'node:net';

/** Between a client and a server of this computer: stops taking bytes to the server once so many have passed. */
export class HeldRelay {
  readonly #to: number;
  readonly #server: Server;
  readonly #clients = new Set<Socket>();
  /** Bytes that have passed to the server, over all connections. */
  passed = 0;
  holdAt = Number.POSITIVE_INFINITY;

  constructor(to: number) {
    this.#to = to;
    this.#server = createServer((client) => this.#join(client));
  }

  async start(): Promise<number> {
    await new Promise<void>((resolve) => this.#server.listen(0, '127.0.0.1', resolve));
    const address = this.#server.address();
    return typeof address === 'object' && address !== null ? address.port : 0;
  }

  async stop(): Promise<void> {
    for (const client of this.#clients) client.destroy();
    await new Promise((resolve) => this.#server.close(resolve));
  }

  /** Those that are held stay so; who comes anew is let through. */
  release(): void {
    this.holdAt = Number.POSITIVE_INFINITY;
  }

  #join(client: Socket): void {
    const server = connect(this.#to, '127.0.0.1');
    this.#clients.add(client);
    client
      .on('error', () => {})
      .once('close', () => {
        this.#clients.delete(client);
        server.destroy();
      });
    server.on('error', () => {}).once('close', () => client.destroy());
    server.pipe(client);
    client.on('data', (bytes: Buffer) => {
      this.passed += bytes.length;
      if (!server.write(bytes)) {
        client.pause();
        server.once('drain', () => client.resume());
      }
      if (this.passed >= this.holdAt) {
        server.removeAllListeners('drain');
        client.pause();
      }
    });
  }
}
