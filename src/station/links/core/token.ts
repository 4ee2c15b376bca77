/**
 * Characters that nobody mistakes for another when they are read from a screen and typed: no 0 o, no 1 l i, one case
 * only.
 */
const alphabet = 'abcdefghjkmnpqrstuvwxyz23456789';

/** 28 characters of 31 are 138.7 bits (28 * log2 31); 128 at least are asked for. */
export const tokenLength = 28;

/** Characters that stand together where a token is shown. */
const groupLength = 4;

/**
 * A token out of random bytes. Bytes of 248 and more are passed over, since 256 is not a multiple of 31 and the first
 * letters would come more often. Null when the bytes were not enough.
 */
export function tokenFromBytes(random: Uint8Array): string | null {
  const limit = Math.floor(256 / alphabet.length) * alphabet.length;
  let token = '';
  for (const byte of random) {
    if (byte < limit) token += alphabet.charAt(byte % alphabet.length);
    if (token.length === tokenLength) return token;
  }
  return null;
}

/** As it is shown and typed: `kq7m-x2pa-…`. */
export function groupedToken(token: string): string {
  return token.match(new RegExp(`.{1,${groupLength}}`, 'g'))?.join('-') ?? token;
}

/** What a person typed as the token it means; null where it is none. Case, blanks and hyphens do not matter. */
export function parseToken(typed: string): string | null {
  const token = typed.toLowerCase().replace(/[\s-]/g, '');
  return token.length === tokenLength && [...token].every((letter) => alphabet.includes(letter))
    ? token
    : null;
}
