import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import * as detail from '../local/simd/detail-binary.ts';
import { bytesOfHex } from './kernel-module.ts';
import * as strip from './strip-binary.ts';

const stripKernels = 'split half roots differences unrest blend cross colours rebuild light lattice encode';
const binaries = [
  { folder: '.', ...strip, kernels: stripKernels },
  { folder: '../local/simd', ...detail, kernels: 'smooth lift' },
];

test.each(binaries)(
  'the binary of $folder is the one that was built, and was built from the source that lies beside it',
  (binary) => {
    const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
    expect(digest(bytesOfHex(binary.binaryHex))).toBe(binary.binarySha256);
    // If this fails: node build.mjs of that folder.
    const assembly = join(import.meta.dirname, binary.folder, 'assembly');
    const sources = readdirSync(assembly)
      .sort()
      .map((file) => readFileSync(join(assembly, file)));
    expect(digest(Buffer.concat(sources))).toBe(binary.sourceSha256);
  },
);

test.each(binaries)(
  'the module of $folder takes a memory and nothing else, and exports its kernels',
  (binary) => {
    const module = new WebAssembly.Module(bytesOfHex(binary.binaryHex));
    expect(WebAssembly.Module.imports(module)).toEqual([{ module: 'env', name: 'memory', kind: 'memory' }]);
    expect(WebAssembly.Module.exports(module)).toEqual(
      binary.kernels.split(' ').map((name) => ({ name, kind: 'function' })),
    );
  },
);
