import { opcodeLimits, parseOpcodes } from '../../../src/formats/index.ts';
import { opcodeList } from '../../render/opcode-writer.ts';
import { insist } from '../target.ts';

/** Lists of what a DNG's maker wants done to its picture. */
export function opcodeSeeds(): Uint8Array[] {
  return [
    opcodeList([
      { id: 1, long: [1], double: [1, 0.1, 0, 0, 0, 0, 0.5, 0.5] },
      { id: 3, double: [0.5, 0, 0, 0, 0, 0.5, 0.5] },
      { id: 5, long: [0, 1, 1, 3, 4, 1, 2, 9, 10] },
    ]),
    opcodeList([{ id: 2, long: [1], double: [1, 0.1, 0, 0, 0.5, 0.5], isOptional: true }]),
    opcodeList([
      { id: 4, long: [0, 1] },
      { id: 6, long: [1, 2, 9, 10] },
    ]),
    opcodeList([
      {
        id: 9,
        long: [0, 0, 9, 9, 0, 1, 1, 1, 2, 2],
        double: [1, 1, 0, 0],
        behind: { long: [1], float: [1, 2, 3, 4] },
      },
    ]),
    opcodeList([{ id: 14, long: [1], double: Array(21).fill(0.5), behind: { long: [0] } }]),
  ];
}

/** Whatever stands in a list, what is read of it is bounded, and no figure is none. */
export function insistOpcodesBounded(input: Uint8Array): void {
  const { opcodes, skipped, missed } = parseOpcodes(input);
  const found = opcodes.length + skipped.length + missed.length;
  insist(found <= opcodeLimits.opcodesMax, `${found} opcodes`);
  // Every figure takes at least a byte: nothing is made out of nothing.
  const figures = opcodes.flatMap((opcode) => numbersIn(opcode));
  insist(figures.length <= input.length, `${figures.length} figures of ${input.length} bytes`);
  for (const figure of figures) insist(!Number.isNaN(figure), 'a figure that is none');
}

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (value instanceof Float32Array) return [...value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}
