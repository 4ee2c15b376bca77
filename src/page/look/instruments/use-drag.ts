import { type PointerEvent, type RefObject, useRef } from 'react';

export interface DragHandlers {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: () => void;
  readonly onPointerCancel: () => void;
}

/** Dragging in a drawing: places come in the units of its view box. */
export function useDrag(
  svg: RefObject<SVGSVGElement | null>,
  onMove: (x: number, y: number) => void,
  onEnd: () => void,
): DragHandlers {
  const isHeld = useRef(false);
  const move = (event: PointerEvent): void => {
    const matrix = svg.current?.getScreenCTM();
    if (matrix == null) return;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    onMove(x, y);
  };
  const end = (): void => {
    if (isHeld.current) onEnd();
    isHeld.current = false;
  };
  return {
    onPointerDown: (event) => {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      isHeld.current = true;
    },
    onPointerMove: (event) => {
      if (isHeld.current) move(event);
    },
    onPointerUp: end,
    onPointerCancel: end,
  };
}
