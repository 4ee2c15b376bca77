/**
 * Builds `strip-binary.ts` from `assembly/strip.ts`: `node src/develop/simd/build.mjs`. The compiler is fetched for the
 * purpose and is no dependency of the project: it weighs 100 MB, and nobody needs it who does not change the kernels.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const compiler = 'assemblyscript@0.28.20';
const flags = [
  '-O3',
  '--noAssert',
  '--runtime',
  'stub',
  '--enable',
  'simd',
  '--importMemory',
  '--noExportMemory',
];

const folder = mkdtempSync(join(tmpdir(), 'setside-simd-'));
const wasm = join(folder, 'strip.wasm');
execFileSync('npx', ['--yes', '--package', compiler, 'asc', 'strip.ts', ...flags, '-o', wasm], {
  cwd: join(import.meta.dirname, 'assembly'),
  stdio: 'inherit',
});
const binary = readFileSync(wasm);
rmSync(folder, { recursive: true });

const source = readFileSync(join(import.meta.dirname, 'assembly/strip.ts'));
const lines = binary.toString('hex').match(/.{1,100}/g) ?? [];
writeFileSync(
  join(import.meta.dirname, 'strip-binary.ts'),
  `// Made by build.mjs from assembly/strip.ts with ${compiler} ${flags.join(' ')}

/** SHA-256 of assembly/strip.ts when this was built. */
export const sourceSha256 = '${sha256(source)}';

/** SHA-256 of the bytes below. */
export const binarySha256 = '${sha256(binary)}';

/** ${binary.length} bytes of WebAssembly, hexadecimal. */
export const binaryHex: string = [
${lines.map((line) => `  '${line}',`).join('\n')}
].join('');
`,
);

function sha256(bytes) {
  return createHash('sha256').update(bytes).digest('hex');
}
