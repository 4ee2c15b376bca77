import type { FtpLimits } from './limits.ts';

/** What the control connection said. */
export type ControlInput =
  /** One command line without its end, Telnet commands taken out. */
  | { readonly kind: 'line'; readonly bytes: Uint8Array }
  /** A line passed its bound; the rest of it is thrown away. Said once per line. */
  | { readonly kind: 'too-long' }
  /** The over-long line, or the Telnet commands within one, do not end: nothing further is read. */
  | { readonly kind: 'endless' }
  /** Bytes to send back: the refusal of a Telnet option. */
  | { readonly kind: 'telnet'; readonly bytes: Uint8Array };

/** RFC 854, Telnet command codes. */
const telnet = { se: 240, sb: 250, will: 251, wont: 252, do: 253, dont: 254, iac: 255 } as const;
const cr = 13;
const lf = 10;

type TelnetState = 'data' | 'iac' | 'will' | 'do' | 'refusal' | 'sub' | 'sub-iac';

/**
 * Cuts the bytes of a control connection into command lines, RFC 959 section 5.3 over RFC 854.
 *
 * A line ends with CR LF. If the very first line ends with a bare LF, the client is one that knows no better and LF
 * goes on ending lines; after a first CR LF a bare LF is a character, so that a name with LF in it can never smuggle
 * in a second command. CR NUL is a CR. Telnet options are refused, other Telnet commands ignored.
 *
 * Pull, not push: {@link next} works through what was {@link push}ed one input at a time, so that the caller can stop
 * in between; memory is one line and one chunk.
 */
export class LineReader {
  readonly #limits: FtpLimits;
  readonly #line: Uint8Array;
  #lineLength = 0;
  /** Bytes of the current line beyond the bound, or -1 while it is within. */
  #skipped = -1;
  #chunk: Uint8Array = new Uint8Array(0);
  #at = 0;
  #telnet: TelnetState = 'data';
  /** Bytes of Telnet commands since the last line ended. */
  #telnetBytes = 0;
  #sawCr = false;
  /** An `ABOR` was taken at its CR; the LF, should it still come, belongs to it. */
  #swallowLf = false;
  #lineEnd: 'unknown' | 'crlf' | 'lf' = 'unknown';
  #ended = false;

  constructor(limits: FtpLimits) {
    this.#limits = limits;
    this.#line = new Uint8Array(limits.lineBytesMax);
  }

  /** Adds bytes from the wire; they are read, not kept, once {@link next} has gone past them. */
  push(chunk: Uint8Array): void {
    const rest = this.#chunk.subarray(this.#at);
    if (rest.length === 0) {
      this.#chunk = chunk;
    } else {
      const joined = new Uint8Array(rest.length + chunk.length);
      joined.set(rest);
      joined.set(chunk, rest.length);
      this.#chunk = joined;
    }
    this.#at = 0;
  }

  /** The next input, or null when more bytes are needed. */
  next(): ControlInput | null {
    while (this.#at < this.#chunk.length && !this.#ended) {
      const byte = this.#chunk[this.#at] ?? 0;
      if (byte !== lf && this.#holdsUrgentAbort()) break;
      this.#at += 1;
      const input = this.#takeByte(byte);
      if (input !== null) return input;
    }
    return this.#holdsUrgentAbort() ? this.#takeUrgentAbort() : null;
  }

  #takeByte(byte: number): ControlInput | null {
    if (this.#telnet === 'data' && byte !== telnet.iac) return this.#takeCharacter(byte);
    this.#telnetBytes += 1;
    this.#ended = this.#telnetBytes > this.#limits.lineSkipBytesMax;
    return this.#ended ? { kind: 'endless' } : this.#takeTelnet(byte);
  }

  #takeTelnet(byte: number): ControlInput | null {
    switch (this.#telnet) {
      case 'data':
        this.#telnet = 'iac';
        return null;
      case 'iac':
        return this.#takeTelnetCommand(byte);
      case 'will':
      case 'do': {
        const refusal = this.#telnet === 'will' ? telnet.dont : telnet.wont;
        this.#telnet = 'data';
        return { kind: 'telnet', bytes: Uint8Array.of(telnet.iac, refusal, byte) };
      }
      case 'refusal':
        this.#telnet = 'data';
        return null;
      case 'sub':
        if (byte === telnet.iac) this.#telnet = 'sub-iac';
        return null;
      case 'sub-iac':
        this.#telnet = byte === telnet.se ? 'data' : 'sub';
        return null;
    }
  }

  #takeTelnetCommand(byte: number): ControlInput | null {
    this.#telnet = 'data';
    if (byte === telnet.iac) return this.#takeCharacter(byte);
    // The DM of a Synch is sent as TCP urgent data, which Linux takes out of the stream: then the byte after IAC is
    // already the first letter of ABOR.
    if (byte < telnet.se) return this.#takeCharacter(byte);
    if (byte === telnet.will) this.#telnet = 'will';
    else if (byte === telnet.do) this.#telnet = 'do';
    else if (byte === telnet.wont || byte === telnet.dont) this.#telnet = 'refusal';
    else if (byte === telnet.sb) this.#telnet = 'sub';
    return null;
  }

  #takeCharacter(byte: number): ControlInput | null {
    const swallow = this.#swallowLf && byte === lf;
    this.#swallowLf = false;
    if (swallow) return null;
    if (this.#sawCr) {
      this.#sawCr = false;
      if (byte === lf) return this.#endLine('crlf');
      const trouble = this.#append(cr);
      const rest = byte === 0 ? null : this.#takeAfterCr(byte);
      return trouble ?? rest;
    }
    return this.#takeAfterCr(byte);
  }

  #takeAfterCr(byte: number): ControlInput | null {
    if (byte === cr) {
      this.#sawCr = true;
      return null;
    }
    if (byte === lf && this.#lineEnd !== 'crlf') return this.#endLine('lf');
    return this.#append(byte);
  }

  #append(byte: number): ControlInput | null {
    if (this.#skipped >= 0) {
      this.#skipped += 1;
      this.#ended = this.#skipped > this.#limits.lineSkipBytesMax;
      return this.#ended ? { kind: 'endless' } : null;
    }
    if (this.#lineLength === this.#limits.lineBytesMax) {
      this.#skipped = 1;
      return { kind: 'too-long' };
    }
    this.#line[this.#lineLength] = byte;
    this.#lineLength += 1;
    return null;
  }

  #endLine(end: 'crlf' | 'lf'): ControlInput | null {
    if (this.#lineEnd === 'unknown') this.#lineEnd = end;
    const wasTooLong = this.#skipped >= 0;
    const bytes = this.#line.slice(0, this.#lineLength);
    this.#lineLength = 0;
    this.#telnetBytes = 0;
    this.#skipped = -1;
    return wasTooLong ? null : { kind: 'line', bytes };
  }

  /**
   * Python's ftplib sends `ABOR` CR LF as urgent data. Where the system takes the urgent byte out of the stream, the
   * LF never comes and both sides would wait for ever; so a line that reads `ABOR` is complete at its CR.
   */
  #holdsUrgentAbort(): boolean {
    if (!this.#sawCr || this.#lineLength !== 4 || this.#skipped >= 0) return false;
    return String.fromCharCode(...this.#line.subarray(0, 4)).toUpperCase() === 'ABOR';
  }

  #takeUrgentAbort(): ControlInput | null {
    this.#sawCr = false;
    this.#swallowLf = true;
    return this.#endLine('crlf');
  }
}
