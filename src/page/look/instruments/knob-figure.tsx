import { type ReactNode, useRef, useState } from 'react';
import { figureOfPhrase, type Held } from '../../../words/index.ts';
import { type LookNumber, numberOf, withNumber } from '../state/look-number.ts';
import type { Hand } from './hand.ts';
import { figure } from './tape-drawing.ts';
import { takenFigure } from './typed-figure.ts';

interface KnobFigureProps {
  readonly hand: Hand;
  readonly number: LookNumber;
  readonly value: number;
  readonly step: number;
  readonly label: string;
  /** Why what was typed does not stand there; null: it does. */
  readonly onHeld: (held: Held | null, at: number) => void;
}

/**
 * The figure of a knob, to type. Keys come to it from the rule by Enter, and go back there by Enter or Escape: one stop of
 * the tabulator for each knob, and undo has no field in its way.
 */
export function KnobFigure({ hand, number, value, step, label, onHeld }: KnobFigureProps): ReactNode {
  const field = useRef<HTMLInputElement>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const take = (): void => {
    if (typed === null) return;
    const taken = takenFigure(hand.look, number, typed);
    if (taken.value !== null) {
      hand.turn(number, taken.value);
      hand.letGo();
    }
    const after = taken.value === null ? hand.look : withNumber(hand.look, number, taken.value);
    onHeld(taken.held, numberOf(after, number) ?? value);
    setTyped(null);
  };
  const toRule = (): void =>
    field.current?.closest('.knob')?.querySelector<HTMLElement>('.knob-tape')?.focus();
  return (
    <input
      ref={field}
      className="knob-figure"
      tabIndex={-1}
      inputMode="decimal"
      aria-label={figureOfPhrase(label)}
      data-typing={typed !== null}
      value={typed ?? figure(value, step)}
      onFocus={(event) => event.currentTarget.select()}
      onChange={(event) => {
        setTyped(event.target.value);
        onHeld(null, value);
      }}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
        if (event.key === 'Escape') setTyped(null);
        if (event.key === 'Enter' || event.key === 'Escape') toRule();
      }}
    />
  );
}
