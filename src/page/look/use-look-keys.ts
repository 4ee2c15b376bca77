import { useEffect, useRef } from 'react';

/** Undo and redo as browsers have them, letters for the edge (b) and the closer look (p); in a field the keys are the field's. */
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
      if (event.target instanceof HTMLInputElement && event.target.type !== 'checkbox') return;
      const key = event.key.toLowerCase();
      const isCommand = (event.ctrlKey || event.metaKey) && !event.altKey;
      if (isCommand && key === 'z') {
        event.preventDefault();
        if (event.shiftKey) redo();
        else undo();
      } else if (isCommand && key === 'y') {
        event.preventDefault();
        redo();
      } else if (letterKeys && !event.ctrlKey && !event.metaKey && !event.altKey && !event.repeat) {
        held.current[key]?.();
      }
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [undo, redo, letterKeys]);
}
