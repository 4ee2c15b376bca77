/** Builds `detail-binary.ts` from `assembly/detail.ts`: `node src/develop/local/simd/build.mjs`. */
import { buildKernels } from '../../../../scripts/kernel-binary.mjs';

buildKernels(import.meta.dirname, 'detail');
