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

/** The part of the WebAssembly JavaScript Interface (W3C) that a kernel without imports but its memory needs. */
declare namespace WebAssembly {
  class Memory {
    constructor(descriptor: { readonly initial: number; readonly maximum?: number });
    readonly buffer: ArrayBuffer;
  }
  class Module {
    constructor(bytes: Uint8Array<ArrayBuffer>);
  }
  class Instance {
    constructor(module: Module, imports: Readonly<Record<string, Readonly<Record<string, unknown>>>>);
    readonly exports: Readonly<Record<string, unknown>>;
  }
}
