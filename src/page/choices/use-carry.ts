import { useEffect, useRef, useState } from 'react';

/** A frame that is being dragged from the rail, CSS pixels of the window. */
export interface Carried {
  readonly frame: string;
  readonly left: number;
  readonly top: number;
  /** The shot that it hangs over. */
  readonly over: string | null;
}

/**
 * A line that is longer than its place goes on to the rest while the frame rests so near its end, so many CSS pixels each
 * frame. Only after a while: who aims at the last station that is seen must not have it slip away.
 */
const endCssPx = 28;
const restMs = 350;
const glideCssPx = 10;

/** A press that moves less far than this is a click. */
const slipCssPx = 6;

/**
 * Drags a frame of the rail onto a station of the line. Everything with `data-frame-id` on the rail can be taken, everything
 * with `data-shot-id` takes it, and a line of them that is too long for its place scrolls where the frame rests at its end.
 * A finger scrolls the rail instead: by touch a frame is moved from its card.
 */
export function useCarry(onDrop: (frame: string, shot: string) => void): Carried | null {
  const [carried, setCarried] = useState<Carried | null>(null);
  const drop = useRef(onDrop);
  drop.current = onDrop;
  useEffect(() => {
    let pressed: { readonly frame: string; readonly x: number; readonly y: number } | null = null;
    let now: Carried | null = null;
    let waiting: ReturnType<typeof setTimeout> | undefined;
    let gliding = 0;
    const carry = (next: Carried | null): void => {
      now = next;
      setCarried(next);
    };
    const glide = (): void => {
      if (now === null || !scrolled(now.left, now.top)) return;
      carry({ ...now, over: shotAt(now.left, now.top) });
      gliding = requestAnimationFrame(glide);
    };
    const rest = (): void => {
      clearTimeout(waiting);
      cancelAnimationFrame(gliding);
      waiting = setTimeout(glide, restMs);
    };
    const down = (event: PointerEvent): void => {
      const frame = partWith(event.target, '.rail-frame[data-frame-id]')?.dataset.frameId;
      pressed =
        event.button !== 0 || event.pointerType === 'touch' || frame === undefined
          ? null
          : { frame, x: event.clientX, y: event.clientY };
    };
    const move = (event: PointerEvent): void => {
      if (pressed === null) return;
      const { clientX, clientY } = event;
      if (now === null && Math.hypot(clientX - pressed.x, clientY - pressed.y) < slipCssPx) return;
      carry({ frame: pressed.frame, left: clientX, top: clientY, over: shotAt(clientX, clientY) });
      rest();
    };
    const up = (event: PointerEvent): void => {
      const held = now;
      pressed = null;
      if (held === null) return;
      swallowClick();
      carry(null);
      const shot = shotAt(event.clientX, event.clientY);
      if (shot !== null) drop.current(held.frame, shot);
    };
    const cancel = (): void => {
      pressed = null;
      if (now !== null) carry(null);
    };
    const press = (event: KeyboardEvent): void => {
      if (event.key === 'Escape' && now !== null) cancel();
    };
    addEventListener('pointerdown', down);
    addEventListener('pointermove', move);
    addEventListener('pointerup', up);
    addEventListener('pointercancel', cancel);
    addEventListener('keydown', press);
    return () => {
      clearTimeout(waiting);
      cancelAnimationFrame(gliding);
      removeEventListener('pointerdown', down);
      removeEventListener('pointermove', move);
      removeEventListener('pointerup', up);
      removeEventListener('pointercancel', cancel);
      removeEventListener('keydown', press);
    };
  }, []);
  return carried;
}

/** The click that follows a drag on the element where it began would choose that frame. */
function swallowClick(): void {
  const swallow = (event: MouseEvent): void => event.stopPropagation();
  addEventListener('click', swallow, { capture: true, once: true });
  setTimeout(() => removeEventListener('click', swallow, { capture: true }), 0);
}

/** Whether a line that lies below the pointer went on, towards the end that the pointer is near. */
function scrolled(left: number, top: number): boolean {
  const line = partWith(document.elementFromPoint(left, top), '.stops');
  if (line === null) return false;
  const { left: start, right: end } = line.getBoundingClientRect();
  const by = left < start + endCssPx ? -glideCssPx : left > end - endCssPx ? glideCssPx : 0;
  const before = line.scrollLeft;
  line.scrollLeft += by;
  return line.scrollLeft !== before;
}

function shotAt(left: number, top: number): string | null {
  return partWith(document.elementFromPoint(left, top), '[data-shot-id]')?.dataset.shotId ?? null;
}

function partWith(target: EventTarget | null, selector: string): HTMLElement | null {
  return target instanceof Element ? target.closest<HTMLElement>(selector) : null;
}
