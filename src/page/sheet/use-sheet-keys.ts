import { useEffect, useRef } from 'react';
import type { Mark } from '../../facts/index.ts';
import { isTypedInto } from '../typed-into.ts';
import type { SheetStep } from './sheet-steps.ts';

export interface SheetKeyActs {
  readonly mark: (mark: Mark) => void;
  readonly step: (step: SheetStep, reach: boolean) => void;
  readonly add: () => void;
  readonly all: () => void;
  readonly empty: () => void;
  readonly look: () => void;
  readonly client: () => void;
  readonly order: (by: -1 | 1) => void;
}

const steps: Readonly<Record<string, SheetStep>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  Home: 'first',
  End: 'last',
};

/** The same letters as on the Set page. */
export const markLetters: Readonly<Record<string, Mark>> = {
  h: 'hero',
  s: 'select',
  a: 'alternate',
  o: 'out',
};

/**
 * The keys of the sheet while nothing lies over it. Arrows, Space and Enter work where a frame has the focus, or nothing has:
 * a list and a field keep theirs. Letters can be switched off (WCAG 2.2, 2.1.4).
 */
export function useSheetKeys(on: boolean, letterKeys: boolean, acts: SheetKeyActs): void {
  const latest = useRef(acts);
  latest.current = acts;
  useEffect(() => {
    if (!on) return;
    const press = (event: KeyboardEvent): void => {
      if (isTypedInto(event) || document.querySelector('dialog[open]') !== null) return;
      if (taken(event, latest.current, letterKeys)) event.preventDefault();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [on, letterKeys]);
}

/** Does what the key means; false where it means nothing here. */
function taken(event: KeyboardEvent, acts: SheetKeyActs, letterKeys: boolean): boolean {
  const { key, shiftKey, altKey, repeat } = event;
  const chord = event.ctrlKey || event.metaKey;
  if (chord) return key.toLowerCase() === 'a' && onFrames() && done(acts.all);
  const step = steps[key];
  if (step !== undefined && onFrames()) {
    if (!altKey) return done(() => acts.step(step, shiftKey));
    return (step === 'left' || step === 'right') && done(() => acts.order(step === 'left' ? -1 : 1));
  }
  if (altKey) return false;
  if (key === ' ' && onFrames()) return done(() => repeat || acts.add());
  if (key === 'Enter' && onFrames()) return done(() => repeat || acts.look());
  if (key === 'Escape') return done(acts.empty);
  if (!letterKeys || repeat) return false;
  const mark = markLetters[key.toLowerCase()];
  if (mark !== undefined) return done(() => acts.mark(mark));
  return key.toLowerCase() === 'c' && done(acts.client);
}

function done(act: () => unknown): true {
  act();
  return true;
}

/** Whether the keys are on the sheet: on a frame, on the field itself, or nowhere. */
function onFrames(): boolean {
  const focused = document.activeElement;
  return focused === null || focused === document.body || focused.closest('.sheet-field') !== null;
}
