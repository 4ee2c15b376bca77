import { SetsideError } from '../base/index.ts';

/** A place in the order of frames: behind the frame with this key. */
export interface Cursor {
  readonly orderMs: number;
  readonly id: string;
}

export function formatCursor(cursor: Cursor): string {
  return `${cursor.orderMs}~${cursor.id}`;
}

/** Throws `bad-cursor`: cursors come from strangers. */
export function parseCursor(text: string): Cursor {
  const match = /^(-?\d{1,16}(?:\.\d{1,8})?)~([A-Za-z0-9_-]{1,64})$/.exec(text);
  const [, orderMs, id] = match ?? [];
  if (orderMs === undefined || id === undefined) {
    throw new SetsideError('bad-cursor', 'expected a cursor that a page of frames gave as `next`', {
      cure: 'Begin again without a cursor.',
    });
  }
  return { orderMs: Number(orderMs), id };
}
