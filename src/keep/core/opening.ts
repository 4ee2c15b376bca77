/** What the folder shows at a path when a camera wants to send there. */
export type Shown =
  | { readonly kind: 'nothing' }
  | {
      readonly kind: 'broken-off';
      readonly arrival: string;
      /** Good to resume from. */
      readonly heldBytes: number;
      /** What lies in `incoming/`; more than `heldBytes` where a tail is in doubt after power loss. */
      readonly onDiskBytes: number;
    }
  | { readonly kind: 'kept'; readonly arrival: string; readonly sizeBytes: number }
  /** A file that a failed disk left half moved: nothing of it can be built on. */
  | { readonly kind: 'stuck'; readonly arrival: string };

export type OpenAt = 'start' | 'end' | { readonly offsetBytes: number };

export type Opening =
  /** A new file from its first byte. */
  | { readonly kind: 'fresh'; readonly over: string | null }
  /** On in `incoming/`, right behind what is held. */
  | { readonly kind: 'resume'; readonly arrival: string; readonly offsetBytes: number }
  /** A new file that starts with a copy of the first bytes of another. */
  | { readonly kind: 'prefix'; readonly over: string; readonly prefixBytes: number }
  | { readonly kind: 'offset-beyond-end'; readonly heldBytes: number };

/**
 * Plans how a file begins. In place goes only what continues exactly where `incoming/` ends: bytes that are held are
 * never written over, so an earlier offset, a doubtful tail and a kept original each lead to a new file that starts
 * with a copy.
 */
export function planOpening(shown: Shown, at: OpenAt): Opening {
  const heldBytes = heldOf(shown);
  const offsetBytes = at === 'start' ? 0 : at === 'end' ? heldBytes : at.offsetBytes;
  if (offsetBytes > heldBytes) return { kind: 'offset-beyond-end', heldBytes };
  if (shown.kind === 'nothing') return { kind: 'fresh', over: null };
  if (offsetBytes === 0) return { kind: 'fresh', over: shown.arrival };
  if (shown.kind === 'broken-off' && offsetBytes === shown.onDiskBytes) {
    return { kind: 'resume', arrival: shown.arrival, offsetBytes };
  }
  return { kind: 'prefix', over: shown.arrival, prefixBytes: offsetBytes };
}

function heldOf(shown: Shown): number {
  if (shown.kind === 'broken-off') return shown.heldBytes;
  return shown.kind === 'kept' ? shown.sizeBytes : 0;
}
