/** One event as a browser would dispatch it. */
export interface DispatchedEvent {
  readonly type: string;
  readonly data: string;
  readonly lastEventId: string;
}

/**
 * What a browser makes of an event stream, step by step after WHATWG HTML section 9.2.6 "Interpreting an event
 * stream". Written from the standard, not from our writer, so that it can judge it. Feed it text as it comes.
 */
export class EventSourceReader {
  readonly events: DispatchedEvent[] = [];
  /** Comment lines: what follows the colon. */
  readonly comments: string[] = [];
  lastEventId = '';
  retryMs: number | null = null;
  #rest = '';
  #data = '';
  #type = '';
  #idBuffer = '';

  feed(text: string): void {
    this.#rest += text;
    // A very long line comes in many parts: split once it is whole, not over and over.
    if (!text.includes('\n')) return;
    const lines = this.#rest.split('\n');
    this.#rest = lines.pop() ?? '';
    for (const line of lines) this.#line(line.replace(/\r$/, ''));
  }

  #line(line: string): void {
    if (line === '') {
      this.#dispatch();
      return;
    }
    const colon = line.indexOf(':');
    if (colon === 0) {
      this.comments.push(line.slice(1));
      return;
    }
    const field = colon < 0 ? line : line.slice(0, colon);
    const value = colon < 0 ? '' : line.slice(colon + 1).replace(/^ /, '');
    this.#field(field, value);
  }

  #field(field: string, value: string): void {
    if (field === 'event') this.#type = value;
    if (field === 'data') this.#data += `${value}\n`;
    if (field === 'id' && !value.includes('\0')) this.#idBuffer = value;
    if (field === 'retry' && /^\d+$/.test(value)) this.retryMs = Number(value);
  }

  #dispatch(): void {
    this.lastEventId = this.#idBuffer;
    if (this.#data !== '') {
      this.events.push({
        type: this.#type === '' ? 'message' : this.#type,
        data: this.#data.replace(/\n$/, ''),
        lastEventId: this.lastEventId,
      });
    }
    this.#data = '';
    this.#type = '';
  }
}
