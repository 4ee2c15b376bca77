import { type RefObject, useEffect, useRef } from 'react';
import type { Mark } from '../../../facts/index.ts';
import type { ZoomStep } from '../../viewport/index.ts';
import { markLetters } from '../use-sheet-keys.ts';

export interface CompareKeyActs {
  readonly mark: (mark: Mark) => void;
  readonly zoom: (step: ZoomStep) => void;
  /** To the picture of this place, from 0. */
  readonly go: (index: number) => void;
  readonly beside: (by: -1 | 1) => void;
  readonly lay: () => void;
}

const arrows: Readonly<Record<string, ZoomStep>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};
const zooms: Readonly<Record<string, ZoomStep>> = {
  '+': 'closer',
  '=': 'closer',
  '-': 'farther',
  p: 'pixels',
};

/** Keys while pictures are compared: figures lead to one of them, the letters mark it, the others are those of the Set page. */
export function useCompareKeys(
  dialog: RefObject<HTMLDialogElement | null>,
  letterKeys: boolean,
  acts: CompareKeyActs,
): void {
  const latest = useRef(acts);
  latest.current = acts;
  useEffect(() => {
    const element = dialog.current;
    if (element === null) return;
    const press = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (taken(event, latest.current, letterKeys)) event.preventDefault();
    };
    element.addEventListener('keydown', press);
    return () => element.removeEventListener('keydown', press);
  }, [dialog, letterKeys]);
}

function taken({ key, repeat }: KeyboardEvent, acts: CompareKeyActs, letterKeys: boolean): boolean {
  const arrow = arrows[key];
  if (arrow !== undefined) return done(() => acts.zoom(arrow));
  if (key === 'PageUp' || key === 'PageDown') return done(() => acts.beside(key === 'PageUp' ? -1 : 1));
  if (!letterKeys) return false;
  const letter = key.toLowerCase();
  const step = zooms[letter];
  if (step !== undefined) return done(() => acts.zoom(step));
  if (/^[1-4]$/.test(key)) return done(() => acts.go(Number(key) - 1));
  if (repeat) return false;
  const mark = markLetters[letter];
  if (mark !== undefined) return done(() => acts.mark(mark));
  return letter === 'l' && done(acts.lay);
}

function done(act: () => unknown): true {
  act();
  return true;
}
