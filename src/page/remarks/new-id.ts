/** 128 random bits as 32 hexadecimal digits. `crypto.randomUUID` is there on encrypted pages only. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
