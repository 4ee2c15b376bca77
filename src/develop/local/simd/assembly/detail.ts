/**
 * Smoothing and acutance of one plane in WebAssembly SIMD, four pixels at a time (AssemblyScript; README.md beside has the
 * recipe). The readable truth is `../../../kernels/smooth-plane.ts` and `acutance-plane.ts`, whose order of sums is kept,
 * in 32-bit floats.
 *
 * Addresses are bytes in the imported memory. Nothing past the end of a plane is read or written: what does not fill a
 * vector is done one by one, by the same sums, so that a pixel has the same digits wherever a window begins.
 */
export { smooth } from './smooth';
export { lift } from './lift';
