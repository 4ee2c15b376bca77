import { activeParts, type Look } from '../look/index.ts';

/** A finished picture has its tones, its sharpness and its grain from the camera: of a look, only geometry is carried out. */
export function hasGeometry(look: Look): boolean {
  return activeParts(look).includes('geometry');
}
