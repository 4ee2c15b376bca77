import { type ReactNode, useId, useState } from 'react';
import type { Shot } from '../../contract/index.ts';
import { framesPhrase, jobLabels, jobPageLabels, shotName } from '../../words/index.ts';
import type { ShotStop } from '../state/index.ts';
import { ShotForm } from './shot-form.tsx';
import type { ShotRowProps } from './shot-row-props.ts';

/** One line of the shot list: what it is in a few words, and below it, when opened, everything that can be said of it. */
export function ShotRow(props: ShotRowProps): ReactNode {
  const { job, shot, number, stop, grip, mark, onStep } = props;
  const [open, setOpen] = useState(false);
  const panel = useId();
  return (
    <li data-row={number - 1} data-mark={mark ?? ''}>
      <div className="shot-row">
        <span className="grip" title={jobPageLabels.drag(shot.name)} {...grip(shot.id)}>
          {number}
        </span>
        <p className="shot-said">
          <strong>{shotName(shot, job.shots)}</strong>
          <span className="shot-description">{shot.description}</span>
        </p>
        <p className="shot-facts">
          {factsOf(shot, stop).map((fact) => (
            <span key={fact}>{fact}</span>
          ))}
        </p>
        <p className="shot-acts">
          <button
            type="button"
            aria-label={jobPageLabels.up(shot.name)}
            disabled={number === 1}
            onClick={() => onStep(-1)}
          >
            ↑
          </button>
          <button
            type="button"
            aria-label={jobPageLabels.down(shot.name)}
            disabled={number === job.shots.length}
            onClick={() => onStep(1)}
          >
            ↓
          </button>
          <button
            type="button"
            className="press"
            aria-expanded={open}
            aria-controls={panel}
            onClick={() => setOpen(!open)}
          >
            {open ? jobPageLabels.done : jobPageLabels.edit}
            <span className="unseen"> {shot.name}</span>
          </button>
        </p>
      </div>
      <div id={panel} hidden={!open}>
        {open ? <ShotForm {...props} /> : null}
      </div>
    </li>
  );
}

function factsOf(shot: Shot, stop: ShotStop | undefined): string[] {
  return [
    ...(stop?.current === true ? [jobPageLabels.current] : []),
    stop === undefined || stop.frames === 0 ? jobLabels.nothingYet : framesPhrase(stop.frames),
    ...(stop === undefined || stop.heroes === 0 ? [] : [jobLabels.heroesThere(stop.heroes)]),
    ...(shot.camera === null ? [] : [shot.camera]),
    ...(shot.heroes === 1 ? [] : [`${jobPageLabels.heroesShort(shot.heroes)} wanted`]),
    ...(shot.selects === 0 ? [] : [`${jobPageLabels.selectsShort(shot.selects)} wanted`]),
  ];
}
