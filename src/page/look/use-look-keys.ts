import { useEffect, useRef } from 'react';

/**
 * Undo and redo as browsers have them, letters for the edge (b) and the closer look (p). In a field the keys are the
 * field's, except undo and redo in the figure of a knob that nobody is typing into: it stands there as what was turned.
 */
export function useLookKeys(
  undo: () => void,
  redo: () => void,
  letters: Readonly<Record<string, () => void>>,
  letterKeys: boolean,
): void {
  const held = useRef(letters);
  held.current = letters;
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const key = event.key.toLowerCase();
      const isSettled = isField(event.target) && event.target.dataset.typing === 'false';
      if (isField(event.target) && !isSettled) return;
      const isCommand = (event.ctrlKey || event.metaKey) && !event.altKey;
      if (isCommand && key === 'z') {
        event.preventDefault();
        if (event.shiftKey) redo();
        else undo();
      } else if (isCommand && key === 'y') {
        event.preventDefault();
        redo();
      } else if (
        letterKeys &&
        !isSettled &&
        !event.ctrlKey &&
        !event.metaKey &&
        !event.altKey &&
        !event.repeat
      ) {
        held.current[key]?.();
      }
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [undo, redo, letterKeys]);
}

function isField(target: EventTarget | null): target is HTMLInputElement {
  return target instanceof HTMLInputElement && target.type !== 'checkbox';
}
