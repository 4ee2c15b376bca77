import { type PointerEvent, useRef, useState } from 'react';

export interface Reorder {
  /** The one that is dragged. */
  readonly held: string | null;
  /** Where it would go, counted from 0. */
  readonly over: number | null;
  /** For the handle of each. */
  readonly grip: (id: string) => {
    readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerUp: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerCancel: () => void;
  };
}

/** Brings a list in order by dragging handles: rows are told by their `data-row`, counted from 0. */
export function useReorder(
  ids: readonly string[],
  put: (order: readonly string[]) => void | Promise<void>,
): Reorder {
  const [held, setHeld] = useState<string | null>(null);
  const [over, setOver] = useState<number | null>(null);
  const from = useRef<string | null>(null);
  const end = (): void => {
    from.current = null;
    setHeld(null);
    setOver(null);
  };
  return {
    held,
    over,
    grip: (id) => ({
      onPointerDown: (event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = id;
        setHeld(id);
      },
      onPointerMove: (event) => {
        if (from.current !== null) setOver(rowAt(event.clientX, event.clientY));
      },
      onPointerUp: (event) => {
        const to = rowAt(event.clientX, event.clientY);
        const moved = from.current === null || to === null ? ids : movedTo(ids, from.current, to);
        end();
        if (moved.some((each, index) => each !== ids[index])) void put(moved);
      },
      onPointerCancel: end,
    }),
  };
}

/** The list with one of it at another place, the others in their order. */
export function movedTo(ids: readonly string[], id: string, to: number): readonly string[] {
  const others = ids.filter((other) => other !== id);
  return others.toSpliced(to, 0, id);
}

function rowAt(left: number, top: number): number | null {
  const row = document.elementFromPoint(left, top)?.closest<HTMLElement>('[data-row]');
  return row == null ? null : Number(row.dataset.row);
}
