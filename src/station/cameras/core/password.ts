/**
 * Characters that are easy to pick with a camera's arrow keys and that nobody mistakes for another: no 0 o, no 1 l i,
 * one case only.
 */
const alphabet = 'abcdefghjkmnpqrstuvwxyz23456789';

/** 13 characters of 31 are 64.4 bits (13 * log2 31); at least 60 are asked for. */
export const passwordLength = 13;

/**
 * A password out of random bytes. Bytes of 248 and more are passed over, since 256 is not a multiple of 31 and the
 * first letters would come more often. Returns null when the bytes were not enough: call again with more.
 */
export function passwordFromBytes(random: Uint8Array): string | null {
  const limit = Math.floor(256 / alphabet.length) * alphabet.length;
  let password = '';
  for (const byte of random) {
    if (byte < limit) password += alphabet.charAt(byte % alphabet.length);
    if (password.length === passwordLength) return password;
  }
  return null;
}
