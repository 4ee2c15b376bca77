import { useEffect } from 'react';

/** Undo and redo as browsers have them, b for the edge; in a field the keys are the field's. */
export function useLookKeys(
  undo: () => void,
  redo: () => void,
  toggleBefore: () => void,
  letterKeys: boolean,
): void {
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
      } else if (key === 'b' && letterKeys && !event.ctrlKey && !event.metaKey && !event.altKey) {
        toggleBefore();
      }
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [undo, redo, toggleBefore, letterKeys]);
}
