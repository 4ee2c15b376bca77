import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/**
 * The part of libraw-wasm 1.6.0 (LibRaw 0.22.1 as WebAssembly, MIT around LGPL-2.1 or CDDL-1.0) that is used here, as it
 * behaves. Its published types describe a wrapper for browsers; this is the module inside it.
 */
export interface LibRawModule {
  readonly LibRaw: new () => LibRawHandle;
}

export interface LibRawHandle {
  /** Reads the headers. Throws a bare C++ exception object where no raw picture is found. */
  open(bytes: Uint8Array, settings: Readonly<Record<string, unknown>>): void;
  metadata(full: boolean): unknown;
  /** Unpacks. Undefined where there is no mosaic; throws a bare C++ exception object where unpacking fails. */
  rawImageData(): unknown;
  /** The picture after the settings of `open`. Throws a bare C++ exception object where that fails. */
  imageData(): unknown;
  /** Frees the C++ side (embind). */
  delete(): void;
}

type Factory = (options: {
  wasmBinary: Uint8Array;
  print: (line: string) => void;
  printErr: (line: string) => void;
}) => Promise<LibRawModule>;

/**
 * Starts a LibRaw in this thread: 20 to 45 ms, measured. `heard` gets what it writes to its standard error, which is the
 * only place where it says why it failed. Its memory grows with the largest file and is freed with the module only.
 */
export async function startLibRaw(heard: (line: string) => void): Promise<LibRawModule> {
  const dist = dirname(createRequire(import.meta.url).resolve('libraw-wasm'));
  const wasmBinary = await readFile(join(dist, 'libraw.wasm'));
  const restore = pretendBrowserWorker();
  try {
    const module: unknown = await import(/* @vite-ignore */ join(dist, 'libraw.js'));
    return await factoryOf(module)({ wasmBinary, print: heard, printErr: heard });
  } finally {
    restore();
  }
}

function factoryOf(module: unknown): Factory {
  if (typeof module === 'object' && module !== null && 'default' in module) {
    const { default: factory } = module;
    // Emscripten's MODULARIZE output exports one factory; its shape is fixed by the exact version in package.json.
    if (typeof factory === 'function') return factory as Factory;
  }
  throw new Error('libraw-wasm has no module factory: expected version 1.6.0');
}

/**
 * The module looks for a browser's worker (`self`, `WorkerGlobalScope`) while it starts. Both names are taken away again,
 * because other libraries ask for them to find out where they run.
 */
function pretendBrowserWorker(): () => void {
  const scope: Record<string, unknown> = globalThis;
  const added = ['self', 'WorkerGlobalScope'].filter((name) => !(name in scope));
  for (const name of added) scope[name] = name === 'self' ? globalThis : class {};
  return () => {
    for (const name of added) delete scope[name];
  };
}
