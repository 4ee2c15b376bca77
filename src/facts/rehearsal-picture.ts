import type { Purpose } from './purpose.ts';

/**
 * What a rehearsal's picture is called. No camera names a file so: after DCF (JEITA CP-3461, from memory) a camera's names are
 * eight characters that end in a number of four digits.
 */
export const rehearsalPictureName = 'REHEARSE.JPG';

/** Whether a file of this name is a rehearsal's; a folder before it, a number or a bracket that set it apart, are no matter. */
export function isRehearsalPicture(name: string): boolean {
  return /(?:^|\/)REHEARSE(?:[-_ ]?\(?\d{1,3}\)?)?\.JPG$/i.test(name);
}

/**
 * Whether a frame counts: in its shot, on the sheet, before the strike. A rehearsal's picture, set apart as a test, does not, since
 * nobody photographed it; where somebody says that it is a picture after all, it does.
 */
export function isOfTheShoot({
  name,
  purpose,
}: {
  readonly name: string;
  readonly purpose: Purpose;
}): boolean {
  return purpose !== 'test' || !isRehearsalPicture(name);
}
