import { useEffect, useRef } from 'react';
import type { HandAction } from './state/hand.ts';

export interface FieldActs {
  readonly several: boolean;
  readonly lying: readonly string[];
  readonly tell: (action: HandAction) => void;
  readonly look: (id: string) => void;
  /** A chosen frame is let go over another one of its shot. */
  readonly put: (id: string, before: string) => void;
}

/** A press that moves less far than this is a click. */
const slipCssPx = 8;

/**
 * What mouse and finger do on the sheet, heard in one place for all frames: a click takes one, with Ctrl or Cmd one more, with
 * Shift all up to it; twice looks closely; a chosen frame is dragged to its place in the order. A finger scrolls: its order is
 * changed with the buttons. `element` is another one after the sheet was left for its print.
 */
export function useSheetHand(element: HTMLElement | null, acts: FieldActs): void {
  const latest = useRef(acts);
  latest.current = acts;
  useEffect(() => {
    if (element === null) return;
    let pressed: { readonly cell: HTMLElement; readonly x: number; readonly y: number } | null = null;
    let carrying = false;
    const over = (event: PointerEvent): HTMLElement | null =>
      cellAt(document.elementFromPoint(event.clientX, event.clientY));
    const mark = (cell: HTMLElement | null): void => {
      for (const each of element.querySelectorAll<HTMLElement>('[data-over]')) delete each.dataset.over;
      if (cell !== null && liesAbove(cell)) cell.dataset.over = 'true';
    };
    const down = (event: PointerEvent): void => {
      const cell = cellAt(event.target);
      const takes = event.button === 0 && event.pointerType !== 'touch' && cell !== null && liesAbove(cell);
      pressed = takes ? { cell, x: event.clientX, y: event.clientY } : null;
    };
    const move = (event: PointerEvent): void => {
      if (pressed === null) return;
      if (!carrying && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < slipCssPx) return;
      carrying = true;
      element.dataset.carrying = 'true';
      mark(over(event));
    };
    const end = (event: PointerEvent | null): void => {
      const held = pressed;
      const dropped = carrying;
      pressed = null;
      carrying = false;
      delete element.dataset.carrying;
      mark(null);
      if (held === null || !dropped || event === null) return;
      swallowClick();
      const target = over(event);
      if (target !== null && liesAbove(target)) latest.current.put(idOf(held.cell), idOf(target));
    };
    const up = (event: PointerEvent): void => end(event);
    const cancel = (): void => end(null);
    const click = (event: MouseEvent): void => {
      const cell = cellAt(event.target);
      if (cell === null) return;
      const { tell, lying, several } = latest.current;
      const at = { id: idOf(cell), chosen: liesAbove(cell) };
      if (event.shiftKey) tell({ type: 'reach', ...at, lying });
      else if (event.ctrlKey || event.metaKey || several) tell({ type: 'add', ...at });
      else tell({ type: 'take', ...at });
    };
    // Tab leads here too: then the keys are here, and nothing is taken.
    const focus = (event: FocusEvent): void => {
      const cell = cellAt(event.target);
      if (cell !== null) latest.current.tell({ type: 'go', id: idOf(cell), chosen: liesAbove(cell) });
    };
    const twice = (event: MouseEvent): void => {
      const cell = cellAt(event.target);
      if (cell !== null && !latest.current.several) latest.current.look(idOf(cell));
    };
    element.addEventListener('pointerdown', down);
    addEventListener('pointermove', move);
    addEventListener('pointerup', up);
    addEventListener('pointercancel', cancel);
    element.addEventListener('focusin', focus);
    element.addEventListener('click', click);
    element.addEventListener('dblclick', twice);
    return () => {
      element.removeEventListener('pointerdown', down);
      removeEventListener('pointermove', move);
      removeEventListener('pointerup', up);
      removeEventListener('pointercancel', cancel);
      element.removeEventListener('focusin', focus);
      element.removeEventListener('click', click);
      element.removeEventListener('dblclick', twice);
    };
  }, [element]);
}

/** Among the heroes and selects above the frames as they were taken. */
function liesAbove({ dataset }: HTMLElement): boolean {
  return dataset.part === 'hero' || dataset.part === 'select';
}

function idOf({ dataset }: HTMLElement): string {
  return dataset.frameId ?? '';
}

function cellAt(target: EventTarget | null): HTMLElement | null {
  return target instanceof Element ? target.closest<HTMLElement>('.sheet-cell') : null;
}

/** The click that follows a drag would take the frame in hand. */
function swallowClick(): void {
  const swallow = (event: MouseEvent): void => event.stopPropagation();
  addEventListener('click', swallow, { capture: true, once: true });
  setTimeout(() => removeEventListener('click', swallow, { capture: true }), 0);
}
