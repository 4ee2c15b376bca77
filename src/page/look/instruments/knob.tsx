import { type PointerEvent, type ReactNode, useRef, useState } from 'react';
import { type Parameter, parameters } from '../../../look/index.ts';
import { type Held, heldPhrase, lookLabels, parameterWords, unitWords } from '../../../words/index.ts';
import { shiftSteps } from '../../viewport/index.ts';
import { type LookNumber, numberOf, rangeOf, restOf } from '../state/look-number.ts';
import type { Hand } from './hand.ts';
import { KnobFigure } from './knob-figure.tsx';
import { figure, tapeLines, tapeScale } from './tape-drawing.ts';
import { keyed, turnKeys } from './turn-keys.ts';

interface KnobProps {
  readonly hand: Hand;
  readonly number: LookNumber;
  /** In place of the parameter's own name, as for one of three channels. */
  readonly name?: string;
}

const tape = { width: 200, height: 36 } as const;

/**
 * One number of a look: a rule that is drawn along under a fixed index, as on a light meter, and the figure to type. A
 * double-click, or 0, lays it where it does nothing, which a diamond marks; a number without such a place goes back to
 * where it started.
 */
export function Knob({ hand, number, name }: KnobProps): ReactNode {
  const parameter: Parameter = parameters[number.name];
  const { min, max, step, unit, neutral } = parameter;
  const value = numberOf(hand.look, number);
  const words = parameterWords[number.name];
  const [held, setHeld] = useState<{ readonly at: number; readonly why: Held } | null>(null);
  const scale = tapeScale(parameter);
  const { perStep } = scale;
  const grip = useGrip(hand, number, value ?? 0, step, scale.gripCssPx);
  if (value === null) return null;
  const label = name ?? words?.name ?? number.name;
  const rest = restOf(number.name);
  const range = rangeOf(hand.look, number);
  const neutralAt = neutral === null ? null : tape.width / 2 + ((neutral - value) / step) * perStep;
  const keys = turnKeys(hand, (event) => {
    const next = keyed(event.key, value, event.shiftKey ? step * shiftSteps : step, { ...range, rest });
    if (next !== null) hand.turn(number, next);
    else if (event.key === 'Enter') figureBeside(event.currentTarget)?.focus();
    return next !== null || event.key === 'Enter';
  });
  // Said of the number that stands there now: turned on, it is said no more.
  const said = held !== null && held.at === value ? heldPhrase(held.why) : '';
  return (
    <div className="knob" data-parameter={number.name} data-at={number.at} data-rest={value === rest}>
      <div className="knob-head">
        <span className="knob-name" title={words?.about}>
          {label}
        </span>
        <KnobFigure
          hand={hand}
          number={number}
          value={value}
          step={step}
          label={label}
          onHeld={(why, at) => setHeld(why === null ? null : { at, why })}
        />
        <span className="knob-unit">{unitWords[unit]}</span>
      </div>
      <div
        className="knob-tape"
        role="slider"
        tabIndex={0}
        aria-label={label}
        aria-description={lookLabels.ruleKeys}
        aria-valuemin={range.min}
        aria-valuemax={range.max}
        aria-valuenow={value}
        aria-valuetext={`${figure(value, step)} ${unitWords[unit] ?? ''}`.trim()}
        {...keys}
        onDoubleClick={() => {
          if (rest === null) return;
          hand.turn(number, rest);
          hand.letGo();
        }}
        {...grip}
      >
        <svg viewBox={`0 0 ${tape.width} ${tape.height}`} aria-hidden="true">
          {tapeLines(value, { min, max, step }, scale, tape.width / 2).map(({ steps, kind, text }) => (
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
          {neutralAt === null || neutralAt < 0 || neutralAt > tape.width ? null : (
            <path className="tape-rest" d="M0 -4 L4 0 L0 4 L-4 0 Z" transform={`translate(${neutralAt} 5)`} />
          )}
          <path className="tape-index" d={`M${tape.width / 2} 28 l-5 8 h10 z M${tape.width / 2} 0 v15`} />
        </svg>
      </div>
      <p className="knob-said" role="status">
        {said}
      </p>
    </div>
  );
}

function figureBeside(rule: Element): HTMLInputElement | null {
  return rule.closest('.knob')?.querySelector<HTMLInputElement>('.knob-figure') ?? null;
}

interface Grip {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: () => void;
  readonly onPointerCancel: () => void;
}

/** The rule goes with the finger, so the value under the index goes against it. */
function useGrip(hand: Hand, number: LookNumber, value: number, step: number, gripCssPx: number): Grip {
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
