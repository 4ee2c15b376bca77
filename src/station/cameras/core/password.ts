/**
 * Letters that are easy to pick with a camera's arrow keys and that nobody mistakes for another: small ones only, no
 * figures, so that neither case nor key board is changed in the middle; no l i o, no v beside u, no q beside g. Without
 * vowels no word comes about by chance.
 */
const alphabet = 'bcdfghjkmnprstwxz';

/** 16 letters of 17 are 65.4 bits (16 * log2 17); at least 60 are asked for. They are read in four groups of four. */
export const passwordLength = 16;

/**
 * A password out of random bytes. Bytes of 255 are passed over, since 256 is not a multiple of 17 and the first letter
 * would come more often. Returns null when the bytes were not enough: call again with more.
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

/**
 * What somebody meant who typed a password of ours: small letters, without the gaps that are shown between its groups.
 * A camera's keyboard begins with a capital of its own accord, and people type gaps they see. No two passwords of ours
 * become one by it, so nothing is lost. Null where the password is none of ours: then each letter counts.
 */
export function asTyped(password: string, typed: string): string | null {
  const isOurs =
    password.length === passwordLength && [...password].every((letter) => alphabet.includes(letter));
  return isOurs ? typed.replace(/[ -]/g, '').toLowerCase() : null;
}
