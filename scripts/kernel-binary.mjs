/**
 * Builds the binary of WebAssembly kernels as a TypeScript file: bytes as hexadecimal text, so that every build and every
 * bundle carries them. The compiler is fetched for the purpose and is no dependency of the project: it weighs 100 MB, and
 * nobody needs it who does not change the kernels.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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

/** `FOLDER/assembly/NAME.ts` to `FOLDER/NAME-binary.ts`. */
export function buildKernels(folder, name) {
  const temporary = mkdtempSync(join(tmpdir(), 'setside-simd-'));
  const wasm = join(temporary, `${name}.wasm`);
  execFileSync('npx', ['--yes', '--package', compiler, 'asc', `${name}.ts`, ...flags, '-o', wasm], {
    cwd: join(folder, 'assembly'),
    stdio: 'inherit',
  });
  const binary = readFileSync(wasm);
  rmSync(temporary, { recursive: true });
  const sources = readdirSync(join(folder, 'assembly')).sort();
  const source = Buffer.concat(sources.map((file) => readFileSync(join(folder, 'assembly', file))));
  const lines = binary.toString('hex').match(/.{1,100}/g) ?? [];
  writeFileSync(
    join(folder, `${name}-binary.ts`),
    `// Made by build.mjs from assembly/${name}.ts with ${compiler} ${flags.join(' ')}

/** SHA-256 of the files of assembly/, in the order of their names, when this was built. */
export const sourceSha256 = '${sha256(source)}';

/** SHA-256 of the bytes below. */
export const binarySha256 = '${sha256(binary)}';

/** ${binary.length} bytes of WebAssembly, hexadecimal. */
export const binaryHex: string = [
${lines.map((line) => `  '${line}',`).join('\n')}
].join('');
`,
  );
}

function sha256(bytes) {
  return createHash('sha256').update(bytes).digest('hex');
}
