/** Builds `strip-binary.ts` from `assembly/strip.ts`: `node src/develop/simd/build.mjs`. */
import { buildKernels } from '../../../scripts/kernel-binary.mjs';

buildKernels(import.meta.dirname, 'strip');
