import { InvalidArgumentError } from 'commander';
import type { DevelopFileOptions } from '../workers/index.ts';

/** Of a result: `half`, `full`, or a long edge. */
export function resultSize(text: string): DevelopFileOptions['size'] {
  if (text === 'half' || text === 'full') return text;
  const longEdgePx = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (longEdgePx >= 16 && longEdgePx <= 30_000) return { longEdgePx };
  throw new InvalidArgumentError('expected "half", "full" or 16 to 30000');
}

export function depth(text: string): 8 | 16 {
  if (text === '8') return 8;
  if (text === '16') return 16;
  throw new InvalidArgumentError('expected 8 or 16');
}

export function profileVersion(text: string): 2 | 4 {
  if (text === '2') return 2;
  if (text === '4') return 4;
  throw new InvalidArgumentError('expected 2 or 4');
}
