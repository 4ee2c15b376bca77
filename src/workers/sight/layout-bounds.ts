/** Largest layout picture, pixels: a printed double page of A3 at 600 dpi has 70 million. */
export const layoutPixelsMax = 100_000_000;
/** Longest edge, pixels: what a JPEG can have (ITU-T T.81, 16 bits) would be 65,535; panels of a web page are long. */
export const layoutEdgePxMax = 20_000;
