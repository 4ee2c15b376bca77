/** Where a byte of a name that is no UTF-8 stands in our text: U+EF80 to U+EFFF, so that the same bytes go back out. */
const rawByteBase = 0xef00;

/**
 * A name as a person can read it and a disk can hold it: bytes that are no UTF-8 are read as Windows-1252, which older
 * clients send (WHATWG Encoding, section 9: it stands for Latin-1 too). Not for the wire, where the bytes themselves count.
 */
export function legibleName(name: string): string {
  return name.replace(/[\uef80-\uefff]/g, (character) =>
    windows1252.decode(Uint8Array.of(character.charCodeAt(0) - rawByteBase)),
  );
}

const windows1252 = new TextDecoder('windows-1252');
