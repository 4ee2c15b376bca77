import { canonicalJson } from './canonical-json.ts';
import type { CompiledLook } from './compile.ts';
import { sha256Hex } from './sha256.ts';

/**
 * The name of a compiled look's numbers: SHA-256 over matrix, curve and table. The page and the station that compiled
 * one look for one picture have the same.
 */
export function tableHash({
  matrix,
  curve,
  table,
}: Pick<CompiledLook, 'matrix' | 'curve' | 'table'>): string {
  const numbers = (list: readonly number[] | Float32Array): number[] => [...list];
  return sha256Hex(
    canonicalJson({
      matrix: numbers(matrix),
      curve: curve === null ? null : { ...curve, samples: numbers(curve.samples) },
      table:
        table === null
          ? null
          : {
              size: table.size,
              into: { ...table.into },
              outOf: { ...table.outOf },
              values: numbers(table.values),
            },
    }),
  );
}
