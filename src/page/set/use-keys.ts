import { type Dispatch, useEffect } from 'react';
import type { Mark } from '../../facts/index.ts';
import type { PageAction, PageState } from '../state/index.ts';
import { isTypedInto } from '../typed-into.ts';
import { type KeyBinding, keymap } from './keymap.ts';
import type { Zoom } from './use-zoom.ts';

export interface KeyActs {
  readonly mark: (mark: Mark) => void;
  readonly zoom: Zoom;
  readonly stepShot: (by: -1 | 1) => void;
  readonly undo: () => void;
  readonly lay: (what: 'on' | 'ghost') => void;
  readonly putBack: () => void;
}

/**
 * Listens for the page's few keys. While a card lies over the page they rest: the browser closes it on Escape. In a field the
 * keys are the field's.
 */
export function useKeys(
  { card, letterKeys }: PageState,
  dispatch: Dispatch<PageAction>,
  { mark, zoom, stepShot, undo, putBack, lay }: KeyActs,
): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (card !== null || event.altKey || isTypedInto(event)) return;
      const pressed = event.key.length === 1 ? event.key.toLowerCase() : event.key;
      const binding =
        event.ctrlKey || event.metaKey
          ? keymap.find(
              ({ key, chord, shift = false }) =>
                chord === true && key === pressed && shift === event.shiftKey,
            )
          : bindingOf(pressed, zoom.motion.target !== null);
      if (binding === undefined || (binding.letter && !letterKeys)) return;
      event.preventDefault();
      // A key that is held is one wish, not twenty: it would set the mark and take it away in turn.
      if (binding.meaning.type === 'mark') {
        if (!event.repeat) mark(binding.meaning.mark);
      } else if (binding.meaning.type === 'step-shot') {
        if (!event.repeat) stepShot(binding.meaning.by);
      } else if (binding.meaning.type === 'undo') {
        if (!event.repeat) undo();
      } else if (binding.meaning.type === 'lay') {
        if (!event.repeat) lay(binding.meaning.what);
      } else if (binding.meaning.type === 'put-back') {
        if (!event.repeat) putBack();
      } else if (binding.meaning.type === 'zoom') zoom.take(binding.meaning.step);
      else dispatch(binding.meaning);
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [card, letterKeys, dispatch, mark, zoom, stepShot, undo, putBack, lay]);
}

/** On the rail the arrows go from frame to frame, however closely one looks: that is where the focus is. */
function bindingOf(key: string, close: boolean): KeyBinding | undefined {
  const onRail = key.startsWith('Arrow') && document.activeElement?.closest('.rail-frame') != null;
  return keymap.find(
    (binding) =>
      binding.key === key && binding.chord !== true && (binding.close !== true || (close && !onRail)),
  );
}
