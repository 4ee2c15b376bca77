/** Where a byte of a name that is no UTF-8 stands in our text: U+EF80 to U+EFFF, so that the same bytes go back out. */
const rawByteBase = 0xef00;

/**
 * A name as a person can read it and a disk can hold it: bytes that are no UTF-8 are read as Windows-1252, which older
 * clients send, and which holds Latin-1. Not for the wire, where the bytes themselves count.
 */
export function legibleName(name: string): string {
  return name.replace(/[\uef80-\uefff]/g, (character) => {
    const byte = character.charCodeAt(0) - rawByteBase;
    return upperControls[byte - 0x80] ?? String.fromCharCode(byte);
  });
}

/**
 * 0x80 to 0x9F, in which alone Windows-1252 differs from Latin-1 (WHATWG Encoding, index windows-1252). Written out, since
 * the TextDecoder of Node 20 takes one for the other. Five have no character: U+FFFD.
 */
const upperControls: readonly string[] = [...'€\ufffd‚ƒ„…†‡ˆ‰Š‹Œ\ufffdŽ\ufffd\ufffd‘’“”•–—˜™š›œ\ufffdžŸ'];
