/**
 * Whether a file is named as a sidecar of a picture. It bears that picture's number and not one of its own: where it lies alone, its picture
 * is on another card, or nowhere.
 */
export function isXmpName(name: string): boolean {
  return /\.xmp$/i.test(name);
}
