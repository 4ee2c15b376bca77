/**
 * SHA-256 (FIPS 180-4, section 6.2) of a short text in UTF-8, as 64 hexadecimal digits.
 * Own, because a pure room has no platform crypto and the page's is asynchronous; meant for recipes, not for files.
 */
export function sha256Hex(text: string): string {
  const blocks = paddedBlocks(new TextEncoder().encode(text));
  const hash = Uint32Array.from(primes(8), (prime) => fractionBits(Math.sqrt(prime)));
  const constants = Uint32Array.from(primes(64), (prime) => fractionBits(Math.cbrt(prime)));
  for (let offset = 0; offset < blocks.byteLength; offset += 64) digestBlock(hash, constants, blocks, offset);
  return [...hash].map((word) => word.toString(16).padStart(8, '0')).join('');
}

/** FIPS 180-4, 5.1.1: a one bit, zeros, and the length in bits as the last 8 bytes. */
function paddedBlocks(message: Uint8Array): DataView {
  const bytes = new Uint8Array((((message.length + 8) >> 6) << 6) + 64);
  bytes.set(message);
  bytes[message.length] = 0x80;
  const view = new DataView(bytes.buffer);
  view.setUint32(bytes.length - 8, Math.floor(message.length / 2 ** 29));
  view.setUint32(bytes.length - 4, message.length << 3);
  return view;
}

/** FIPS 180-4, 6.2.2, steps 1 to 4 for one block. */
function digestBlock(hash: Uint32Array, constants: Uint32Array, blocks: DataView, offset: number): void {
  const w = new Uint32Array(64);
  for (let t = 0; t < 16; t++) w[t] = blocks.getUint32(offset + 4 * t);
  for (let t = 16; t < 64; t++) {
    const w15 = w[t - 15] ?? 0;
    const w2 = w[t - 2] ?? 0;
    const s0 = rotate(w15, 7) ^ rotate(w15, 18) ^ (w15 >>> 3);
    const s1 = rotate(w2, 17) ^ rotate(w2, 19) ^ (w2 >>> 10);
    w[t] = (w[t - 16] ?? 0) + s0 + (w[t - 7] ?? 0) + s1;
  }
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
  for (let t = 0; t < 64; t++) {
    const sum1 = rotate(e, 6) ^ rotate(e, 11) ^ rotate(e, 25);
    const choice = (e & f) ^ (~e & g);
    const t1 = (h + sum1 + choice + (constants[t] ?? 0) + (w[t] ?? 0)) | 0;
    const sum0 = rotate(a, 2) ^ rotate(a, 13) ^ rotate(a, 22);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    h = g;
    g = f;
    f = e;
    e = (d + t1) | 0;
    d = c;
    c = b;
    b = a;
    a = (t1 + sum0 + majority) | 0;
  }
  [a, b, c, d, e, f, g, h].forEach((word, index) => {
    hash[index] = (hash[index] ?? 0) + word;
  });
}

function rotate(word: number, bits: number): number {
  return (word >>> bits) | (word << (32 - bits));
}

/** First 32 bits of the fractional part: how FIPS 180-4 (4.2.2, 5.3.3) defines its constants. */
function fractionBits(root: number): number {
  return Math.floor((root - Math.floor(root)) * 2 ** 32);
}

function primes(count: number): number[] {
  const found: number[] = [];
  for (let candidate = 2; found.length < count; candidate++) {
    if (found.every((prime) => candidate % prime !== 0)) found.push(candidate);
  }
  return found;
}
