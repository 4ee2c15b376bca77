/**
 * The kernels of one strip of pixels in WebAssembly SIMD, four pixels at a time (AssemblyScript; README.md beside has the
 * recipe). The readable truth is `../../kernels/`, in files that are named after the same steps. Same order, in 32-bit
 * floats here and 64-bit floats there.
 *
 * Addresses are bytes in the imported memory, chosen by the caller, who leaves 64 bytes free behind every region: the
 * last vector of a row may read and write past its end. `p` points to the numbers that stay the same for a whole
 * picture, 32-bit floats.
 *
 * Comparisons are `pmin` and `pmax`: one instruction on x86, where `min` and `max` take seven to look after NaN and -0
 * (measured: `light` takes half the time).
 */
export { split, half } from './half-size';
export { roots, differences, unrest, blend, cross, colours } from './full-size';
export { rebuild, light } from './light';
export { lattice } from './lattice';
export { encode } from './light';
