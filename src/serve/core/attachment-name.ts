/**
 * `Content-Disposition` of a file to be saved: RFC 6266, with the name in UTF-8 after RFC 8187. Clients that read
 * `filename*` ignore the plain one beside it (RFC 6266 section 4.3).
 */
export function attachmentDisposition(name: string): string {
  const plain = name.replace(/[^\x20-\x7e]/g, '_').replace(/["\\%]/g, '_');
  return `attachment; filename="${plain}"; filename*=UTF-8''${extendedValue(name)}`;
}

/** RFC 8187 section 3.2.1: everything but `attr-char` as percent-encoded UTF-8. */
function extendedValue(text: string): string {
  let value = '';
  for (const byte of new TextEncoder().encode(text)) {
    const character = String.fromCharCode(byte);
    value += /[A-Za-z0-9!#$&+.^_`|~-]/.test(character)
      ? character
      : `%${byte.toString(16).toUpperCase().padStart(2, '0')}`;
  }
  return value;
}
