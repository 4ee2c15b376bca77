/** The bytes of hexadecimal text. */
export function bytesOfHex(hex: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: hex.length / 2 }, (_, index) =>
    Number.parseInt(hex.slice(2 * index, 2 * index + 2), 16),
  );
}

/**
 * Compiles a module of kernels when it is first asked for, and once. It gives null on a machine without vector
 * instructions and in an engine without WebAssembly, which refuse the module.
 */
export function kernelModule(hex: string): () => WebAssembly.Module | null {
  let compiled: WebAssembly.Module | null | undefined;
  return () => {
    if (compiled === undefined) compiled = compile(hex);
    return compiled;
  };
}

function compile(hex: string): WebAssembly.Module | null {
  try {
    return new WebAssembly.Module(bytesOfHex(hex));
  } catch {
    return null;
  }
}
