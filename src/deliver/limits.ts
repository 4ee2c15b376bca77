/** Longest edge of a delivered picture, px: what JPEG can hold (ITU-T T.81, B.2.2: 16 bits) is 65,535; half of that is a wall. */
export const edgePxMax = 32_767;
/** Shortest edge, px: less is no picture that anybody hands over. */
export const edgePxMin = 16;
/** Bytes of one name with its ending, as UTF-8: NAME_MAX of common file systems is 255; the rest is room for a temporary ending. */
export const fileNameBytesMax = 200;
/** Characters of a specification's text that are read. One with every list full has about 2 kB. */
export const specificationTextMax = 65_536;
/** Smallest upper bound of a file's size, bytes: less than a header with its profile. */
export const bytesMaxMin = 4096;
/** Largest one: 2 GiB, above what any of the formats is asked for. */
export const bytesMaxMax: number = 2 * 2 ** 30;
/** Things that are wrong with one document and told at once. */
export const findingsMax = 10;
