import { type PointerEvent, type ReactNode, useRef } from 'react';
import { readingLabels } from '../../words/index.ts';
import { type SheetStop, sheetStopAt, sheetStopPx } from './geometry/sheet-stop.ts';

/** A finger that moves less than this has tapped, CSS px. */
const tapPx = 6;

interface Pull {
  readonly fromY: number;
  readonly heightPx: number;
}

/** What the sheet on a phone is pulled by: up, low, or away; a tap, or Enter, makes it low and half again. */
export function SheetHandle({ onClose }: { readonly onClose: () => void }): ReactNode {
  const pull = useRef<Pull | null>(null);
  const stop = useRef<SheetStop>('half');
  const rest = (button: HTMLElement, at: SheetStop): void => {
    const { sheet, headPx } = partsOf(button);
    if (sheet === null) return;
    stop.current = at;
    if (at === 'gone') onClose();
    else sheet.style.setProperty('--sheet', `${sheetStopPx(at, window.innerHeight, headPx)}px`);
  };
  const move = (event: PointerEvent<HTMLButtonElement>): void => {
    const { sheet } = partsOf(event.currentTarget);
    if (pull.current === null || sheet === null) return;
    sheet.style.setProperty('--sheet', `${pulledPx(pull.current, event)}px`);
  };
  return (
    <button
      type="button"
      className="sheet-handle"
      aria-label={readingLabels.sheet}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        const heightPx = partsOf(event.currentTarget).sheet?.offsetHeight ?? 0;
        pull.current = { fromY: event.clientY, heightPx };
      }}
      onPointerMove={move}
      onPointerUp={(event) => {
        if (pull.current === null || Math.abs(event.clientY - pull.current.fromY) < tapPx) return;
        const { headPx } = partsOf(event.currentTarget);
        rest(event.currentTarget, sheetStopAt(pulledPx(pull.current, event), window.innerHeight, headPx));
      }}
      onPointerCancel={(event) => {
        pull.current = null;
        rest(event.currentTarget, stop.current);
      }}
      onClick={(event) => {
        // The click behind a pull is none; one by keyboard had no finger before it.
        const pulled = pull.current !== null && Math.abs(event.clientY - pull.current.fromY) >= tapPx;
        pull.current = null;
        if (!pulled) rest(event.currentTarget, stop.current === 'low' ? 'half' : 'low');
      }}
    />
  );
}

function pulledPx({ fromY, heightPx }: Pull, { clientY }: { readonly clientY: number }): number {
  return Math.max(0, heightPx + fromY - clientY);
}

/** The sheet, and how high its handle and heading are. */
function partsOf(button: HTMLElement): { readonly sheet: HTMLElement | null; readonly headPx: number } {
  const sheet = button.parentElement;
  const heading = button.nextElementSibling;
  return {
    sheet,
    headPx: button.offsetHeight + (heading instanceof HTMLElement ? heading.offsetHeight : 0),
  };
}
