import type { EpochMs } from '../base/index.ts';
import type { ExpectedFiles } from '../facts/index.ts';

/** What of a press of the shutter has not come. */
export type MissingPartner = 'raw' | 'jpeg';

/**
 * How long the second file may take. Raw and JPEG come right after each other (common practice, no source); two
 * minutes leave room for a raw of 100 MB over a weak line before it.
 */
export const partnerWaitMs = 120_000;

export interface PartnerFacts {
  /** Names of the frame's files, as the camera calls them. */
  readonly names: readonly string[];
  /** What the bytes of the frame's picture are, after `formats`' kinds; null while nobody has looked. */
  readonly kind: string | null;
  /** Null where nobody has said what the camera sends. */
  readonly expects: ExpectedFiles | null;
  /** When the first file was kept. */
  readonly keptMs: EpochMs;
  readonly nowMs: EpochMs;
}

/**
 * The file that should have come with the others and has not, once it had its time. Only a camera that is set to send
 * both can miss one: a JPEG whose raw stays on the card is not missing (decision 0008, day 31).
 */
export function missingPartner({ names, kind, expects, keptMs, nowMs }: PartnerFacts): MissingPartner | null {
  if (expects !== 'both' || nowMs - keptMs < partnerWaitMs) return null;
  const pictures = names.filter((name) => !isSidecar(name) && !isNoStill(name));
  if (pictures.length === 0) return null;
  // Alone, a file is what it holds, whatever it is called.
  if (pictures.length === 1 && kind === 'jpeg') return 'raw';
  if (!pictures.some(isJpegName)) return 'jpeg';
  return pictures.every(isJpegName) ? 'raw' : null;
}

/** By name: of two files of one stem the camera itself tells them apart so (DCF, CIPA DC-009). */
function isJpegName(name: string): boolean {
  return /\.jpe?g$/i.test(name);
}

/** Notes beside a picture: metadata, a small picture, a spoken remark. */
export function isSidecar(name: string): boolean {
  return /\.(xmp|thm|wav|txt)$/i.test(name);
}

/** Films, and what a camera writes on its card for itself: no raw or JPEG comes with them (common practice, no source). */
function isNoStill(name: string): boolean {
  return /\.(mp4|mov|avi|mts|m2ts|mpg|mpeg|3gp|crm|dat|ctg|bdm|ind|bin|log|ini)$/i.test(name);
}
