import type { RgbSpace } from '../colour/index.ts';

const steps = 65_536;

/**
 * The byte for each of 65,536 even steps of linear light 0 … 1; see `encodeSamples8`: round(255 encode(step / 65535)). A
 * curve only rises, so where each byte begins is looked for by halves: 4,000 powers in place of 65,536, which took a fresh
 * process 45 ms.
 */
export function encodeTable({ transfer }: RgbSpace): Uint8Array<ArrayBuffer> {
  const codeAt = (step: number): number =>
    Math.round(255 * Math.min(1, Math.max(0, transfer.encode(step / (steps - 1)))));
  const table = new Uint8Array(steps);
  let begin = 0;
  for (let code = codeAt(0); begin < steps; code++) {
    let end = begin;
    // The first step of a higher byte lies in end … high.
    for (let high = steps; end < high; ) {
      const middle = (end + high) >> 1;
      if (codeAt(middle) > code) high = middle;
      else end = middle + 1;
    }
    table.fill(code, begin, end);
    begin = end;
  }
  return table;
}
