import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react';
import { type Parameter, parameters } from '../../../look/index.ts';
import { parameterWords, unitWords } from '../../../words/index.ts';
import { type LookNumber, numberOf, restOf } from '../state/look-number.ts';
import type { Hand } from './hand.ts';
import { figure, tapeLines, typedNumber } from './tape-drawing.ts';

interface KnobProps {
  readonly hand: Hand;
  readonly number: LookNumber;
  /** In place of the parameter's own name, as for one of three channels. */
  readonly name?: string;
}

/** Units of the drawing for one step of the knob. */
const perStep = 3;
const tape = { width: 200, height: 36 } as const;

/**
 * One number of a look: a rule that is drawn along under a fixed index, as on a light meter, and the figure to type. A
 * double-click, or 0, lays it where it does nothing.
 */
export function Knob({ hand, number, name }: KnobProps): ReactNode {
  const parameter: Parameter = parameters[number.name];
  const { min, max, step, unit } = parameter;
  const value = numberOf(hand.look, number);
  const words = parameterWords[number.name];
  const grip = useGrip(hand, number, value ?? 0, step);
  if (value === null) return null;
  const label = name ?? words?.name ?? number.name;
  const rest = restOf(number.name);
  const restAt = tape.width / 2 + ((rest - value) / step) * perStep;
  const keys = (event: KeyboardEvent): void => {
    const next = keyed(event.key, value, event.shiftKey ? step * 10 : step, min, max, rest);
    if (next === null || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    hand.turn(number, next);
    hand.letGo();
  };
  return (
    <div className="knob" data-parameter={number.name} data-at={number.at} data-rest={value === rest}>
      <div className="knob-head">
        <span className="knob-name" title={words?.about}>
          {label}
        </span>
        <Figure hand={hand} number={number} value={value} step={step} label={label} />
        <span className="knob-unit">{unitWords[unit]}</span>
      </div>
      <div
        className="knob-tape"
        role="slider"
        tabIndex={0}
        aria-label={label}
        aria-valuemin={min}
        aria-valuemax={max}
        aria-valuenow={value}
        aria-valuetext={`${figure(value, step)} ${unitWords[unit] ?? ''}`.trim()}
        onKeyDown={keys}
        onDoubleClick={() => {
          hand.turn(number, rest);
          hand.letGo();
        }}
        {...grip}
      >
        <svg viewBox={`0 0 ${tape.width} ${tape.height}`} aria-hidden="true">
          {tapeLines(value, { min, max, step }, tape.width / 2 / perStep).map(({ steps, kind, text }) => (
            <g
              key={text === '' ? steps : text}
              transform={`translate(${tape.width / 2 + steps * perStep} 0)`}
            >
              <line className="tape-line" y1="0" y2={kind === 'large' ? 13 : kind === 'middle' ? 9 : 6} />
              {text === '' ? null : (
                <text className="tape-figure" y="25">
                  {text}
                </text>
              )}
            </g>
          ))}
          {restAt < 0 || restAt > tape.width ? null : (
            <path className="tape-rest" d="M0 -4 L4 0 L0 4 L-4 0 Z" transform={`translate(${restAt} 5)`} />
          )}
          <path className="tape-index" d={`M${tape.width / 2} 28 l-5 8 h10 z M${tape.width / 2} 0 v15`} />
        </svg>
      </div>
    </div>
  );
}

function Figure({
  hand,
  number,
  value,
  step,
  label,
}: {
  readonly hand: Hand;
  readonly number: LookNumber;
  readonly value: number;
  readonly step: number;
  readonly label: string;
}): ReactNode {
  const [typed, setTyped] = useState<string | null>(null);
  const take = (): void => {
    const wanted = typed === null ? null : typedNumber(typed);
    if (wanted !== null) {
      hand.turn(number, wanted);
      hand.letGo();
    }
    setTyped(null);
  };
  return (
    <input
      className="knob-figure"
      inputMode="decimal"
      aria-label={label}
      value={typed ?? figure(value, step)}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
        if (event.key === 'Escape') setTyped(null);
      }}
    />
  );
}

/** Pixels a finger draws the rule along for one step. */
const gripCssPx = 4;

interface Grip {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: () => void;
  readonly onPointerCancel: () => void;
}

/** The rule goes with the finger, so the value under the index goes against it. */
function useGrip(hand: Hand, number: LookNumber, value: number, step: number): Grip {
  const held = useRef<{ readonly x: number; readonly value: number } | null>(null);
  const end = (): void => {
    if (held.current !== null) hand.letGo();
    held.current = null;
  };
  return {
    onPointerDown: (event) => {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      held.current = { x: event.clientX, value };
    },
    onPointerMove: (event) => {
      if (held.current === null) return;
      const steps = Math.round((held.current.x - event.clientX) / gripCssPx);
      hand.turn(number, held.current.value + steps * step);
    },
    onPointerUp: end,
    onPointerCancel: end,
  };
}

/** Where a key takes a knob; null for another key. */
export function keyed(
  key: string,
  value: number,
  step: number,
  min: number,
  max: number,
  rest: number,
): number | null {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return value + step;
    case 'ArrowLeft':
    case 'ArrowDown':
      return value - step;
    case 'PageUp':
      return value + step * 10;
    case 'PageDown':
      return value - step * 10;
    case 'Home':
      return min;
    case 'End':
      return max;
    case '0':
      return rest;
    default:
      return null;
  }
}
