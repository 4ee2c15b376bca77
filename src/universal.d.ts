/**
 * The names outside plain ECMAScript that pure code may use, because every place it runs in has them:
 * Node, a worker thread, the browser. Nothing else resolves in a pure room.
 */
declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean });
  decode(input?: ArrayBufferView | ArrayBuffer, options?: { stream?: boolean }): string;
}

declare class TextEncoder {
  encode(input?: string): Uint8Array<ArrayBuffer>;
}

interface AbortSignal {
  readonly aborted: boolean;
  readonly reason: unknown;
  throwIfAborted(): void;
}
