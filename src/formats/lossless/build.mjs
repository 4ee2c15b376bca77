/** Builds `lossless-binary.ts` from `assembly/lossless.ts`: `node src/formats/lossless/build.mjs`. */
import { buildKernels } from '../../../scripts/kernel-binary.mjs';

buildKernels(import.meta.dirname, 'lossless');
