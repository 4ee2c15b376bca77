import { type Dispatch, useEffect } from 'react';
import type { Mark } from '../../facts/index.ts';
import type { PageAction, PageState } from '../state/index.ts';
import { keymap } from './keymap.ts';

/** Listens for the page's few keys. While a card lies over the page they rest: the browser closes it on Escape. */
export function useKeys(
  { card, letterKeys }: PageState,
  dispatch: Dispatch<PageAction>,
  mark: (mark: Mark) => void,
): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (card !== null || event.ctrlKey || event.metaKey || event.altKey) return;
      const pressed = event.key.length === 1 ? event.key.toLowerCase() : event.key;
      const binding = keymap.find(({ key }) => key === pressed);
      if (binding === undefined || (binding.letter && !letterKeys)) return;
      event.preventDefault();
      if (binding.meaning.type === 'mark') mark(binding.meaning.mark);
      else dispatch(binding.meaning);
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [card, letterKeys, dispatch, mark]);
}
