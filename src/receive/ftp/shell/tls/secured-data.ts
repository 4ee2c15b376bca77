import type { Socket } from 'node:net';
import { TLSSocket, type TLSSocketOptions } from 'node:tls';
import { TlsTransport } from './tls-transport.ts';

/** A data connection under TLS. Read like any socket; its end says how it came about. */
export class SecuredData extends TLSSocket {
  /** Set once the stream has ended; see {@link endedHow}. */
  #end: 'closed' | 'unclosed' | 'reset' | null = null;
  #sawEnd = false;

  constructor(socket: Socket, options: TLSSocketOptions) {
    const transport: TlsTransport = new TlsTransport(socket, () => {
      this.#end ??= this.#sawEnd ? 'closed' : transport.broke ? 'reset' : 'unclosed';
    });
    super(transport, options);
  }

  /**
   * How the other side ended: `closed` by close_notify (RFC 8446 section 6.1, RFC 5246 section 7.2.1), `unclosed` by
   * TCP alone, `reset` where the connection broke. Asked at the `end` of the stream.
   */
  get endedHow(): 'closed' | 'unclosed' | 'reset' {
    return this.#end ?? (this.#sawEnd ? 'closed' : 'reset');
  }

  /** Node pushes null for the end of the plain text, at the very moment it meets a close_notify. */
  override push(chunk: unknown, encoding?: BufferEncoding): boolean {
    if (chunk === null) this.#sawEnd = true;
    return super.push(chunk, encoding);
  }
}
