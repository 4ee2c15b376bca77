/** Bytes in one kibibyte, mebibyte, gibibyte: limits in the code are written as multiples of these. */
export const KiB = 1024;
export const MiB: number = 1024 * KiB;
export const GiB: number = 1024 * MiB;
