import { type FocusEvent, type ReactNode, useEffect, useId, useState } from 'react';
import type { Job } from '../../contract/index.ts';
import { type ToleranceName, toleranceNames, toleranceUnits } from '../../facts/index.ts';
import { jobPageLabels, questionNames, toleranceWords } from '../../words/index.ts';
import { type Limits, limitsIn, type Tolerances } from './limits-in.ts';

interface ToleranceRowsProps {
  readonly tolerances: Tolerances;
  /** What counts where a row is empty; shown in its place. */
  readonly otherwise?: Job['tolerances'];
  /** Whether somebody told how large things are in the pictures it counts for. */
  readonly isScaled: boolean;
  /** Puts one limit; null takes it away. */
  readonly save: (name: ToleranceName, limits: Limits | null) => Promise<string>;
}

/** Every limit there is, in the order of the questions, with its unit; an empty row sets none. */
export function ToleranceRows({ tolerances, otherwise = {}, isScaled, save }: ToleranceRowsProps): ReactNode {
  return (
    <ul className="tolerances">
      {offered(tolerances, otherwise, isScaled).map((name) => (
        <Row
          key={name}
          name={name}
          limits={tolerances[name]}
          otherwise={otherwise[name]}
          save={(limits) => save(name, limits)}
        />
      ))}
    </ul>
  );
}

/** A limit on the set in mm counts only where somebody told how large a pixel is there, so it is offered where one did. */
function offered(tolerances: Tolerances, otherwise: Tolerances, isScaled: boolean): readonly ToleranceName[] {
  return toleranceNames.filter(
    (name) =>
      name !== 'shiftMm' || isScaled || tolerances[name] !== undefined || otherwise[name] !== undefined,
  );
}

interface RowProps {
  readonly name: ToleranceName;
  readonly limits: Limits | undefined;
  readonly otherwise: Limits | undefined;
  readonly save: (limits: Limits | null) => Promise<string>;
}

/** Taken when the row is left: one figure alone means nothing. */
function Row({ name, limits, otherwise, save }: RowProps): ReactNode {
  const id = useId();
  const standingGood = limits === undefined ? '' : String(limits.good);
  const standingBad = limits === undefined ? '' : String(limits.bad);
  const [good, setGood] = useState(standingGood);
  const [bad, setBad] = useState(standingBad);
  const [refusal, setRefusal] = useState('');
  useEffect(() => {
    setGood(standingGood);
    setBad(standingBad);
    setRefusal('');
  }, [standingGood, standingBad]);
  const { question, words } = toleranceWords[name];
  const unit = toleranceUnits[name];
  const take = async (): Promise<void> => {
    const read = limitsIn(good, bad);
    if (typeof read === 'string') {
      setRefusal(jobPageLabels[read]);
      return;
    }
    if (read?.good === limits?.good && read?.bad === limits?.bad) setRefusal('');
    else setRefusal(await save(read));
  };
  const leave = (event: FocusEvent<HTMLLIElement>): void => {
    if (!event.currentTarget.contains(event.relatedTarget)) void take();
  };
  const field = (which: 'good' | 'bad', value: string, set: (text: string) => void): ReactNode => (
    <span className="limit">
      <label htmlFor={`${id}-${which}`}>
        {which === 'good' ? jobPageLabels.goodUpTo : jobPageLabels.badAbove}
        <span className="unseen"> ({words})</span>
      </label>
      <input
        id={`${id}-${which}`}
        value={value}
        inputMode="decimal"
        size={6}
        placeholder={otherwise === undefined ? '' : String(otherwise[which])}
        aria-describedby={`${id}-said`}
        onChange={(event) => set(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter') void take();
        }}
      />
      <span>{unit}</span>
    </span>
  );
  return (
    <li onBlur={leave}>
      <span className="limit-words">
        <strong>{questionNames[question]}</strong> {words}
      </span>
      {field('good', good, setGood)}
      {field('bad', bad, setBad)}
      <span className="limit-said" id={`${id}-said`} role="status">
        {refusal}
      </span>
    </li>
  );
}
