import { SetsideError } from '../../base/index.ts';
import { writeSlate } from '../../slate/index.ts';
import type { HoldOrder } from './frame-plan.ts';

/** As many frames as a session may have. */
const frameMax = 100_000;

/** Reads `JOB:SHOT@FRAME[,FRAME…]`: `QM-26:jug@3`. Throws `stand-in-wrong-option`. */
export function parseSlateOrder(text: string): HoldOrder {
  const [, job = '', shot = '', frames = ''] = /^([^:]+):(.+)@([^@]*)$/s.exec(text) ?? [];
  if (job === '' || shot === '') throw wrongOrder('--slate', 'JOB:SHOT@FRAME', text);
  return {
    held: { kind: 'slate', text: writeSlate({ kind: 'shot', job, shot }) },
    frames: framesOf('--slate', frames),
  };
}

/** Reads `FRAME[,FRAME…]`. Throws `stand-in-wrong-option`. */
export function parseGreyCardOrder(text: string): HoldOrder {
  return { held: { kind: 'grey-card' }, frames: framesOf('--grey-card', text) };
}

function framesOf(option: string, text: string): number[] {
  return text.split(',').map((part) => {
    const frame = /^\d{1,6}$/.test(part.trim()) ? Number(part) : 0;
    if (frame >= 1 && frame <= frameMax) return frame;
    throw wrongOrder(option, `frame numbers from 1 to ${frameMax}, separated by commas`, text);
  });
}

function wrongOrder(option: string, expected: string, got: string): SetsideError {
  return new SetsideError(
    'stand-in-wrong-option',
    `${option}: expected ${expected}, got "${got.slice(0, 80)}"`,
    { details: { name: option.slice(2) } },
  );
}
