import type { Wholeness } from '../../facts/index.ts';
import type { BrokenOffEnd } from './arrival-records.ts';

/** What becomes of a file whose bytes have ended. */
export type Ending =
  | { readonly kind: 'keep'; readonly wholeness: 'whole' | 'unknown' }
  | { readonly kind: 'cut'; readonly expectedBytes: number | null };

/**
 * Weighs how the bytes ended against what structure and announcement say.
 *
 * - Structure says cut: cut, however the connection ended. Where it does not say how much there should be, the
 *   announcement does.
 * - More was announced than came: cut, unless structure says whole. Then the two do not agree: kept, wholeness unknown
 *   (an announcement is a wish for room, RFC 959 4.1.3 ALLO; some clients round it up).
 * - Structure says whole: whole, also after a reset: nothing that its headers point to is missing.
 * - Fewer bytes than a file of this name can have (`fewestBytes`): cut. How many are missing nobody knows.
 * - Structure cannot tell: in stream mode the closed connection is the end of file (RFC 959 3.4.1), so an orderly
 *   close keeps it as unknown; anything else is cut. Under TLS only close_notify is orderly: without it (`unclosed`)
 *   anybody on the line may have cut the file (RFC 8446 section 6.1).
 */
export function decideEnding(
  end: BrokenOffEnd,
  wholeness: Wholeness,
  sizeBytes: number,
  announcedBytes: number | null,
  fewestBytes = 0,
): Ending {
  const missing = announcedBytes !== null && announcedBytes > sizeBytes;
  if (wholeness.kind === 'cut')
    return { kind: 'cut', expectedBytes: wholeness.expectedBytes ?? (missing ? announcedBytes : null) };
  if (wholeness.kind === 'whole') return { kind: 'keep', wholeness: missing ? 'unknown' : 'whole' };
  if (missing) return { kind: 'cut', expectedBytes: announcedBytes };
  if (sizeBytes < fewestBytes) return { kind: 'cut', expectedBytes: null };
  return end === 'closed' ? { kind: 'keep', wholeness: 'unknown' } : { kind: 'cut', expectedBytes: null };
}
