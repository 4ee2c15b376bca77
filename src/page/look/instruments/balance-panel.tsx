import type { ReactNode } from 'react';
import type { LookProfile } from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';
import { BalanceFigure } from './balance-figure.tsx';
import type { Hand } from './hand.ts';
import { Knob } from './knob.tsx';

interface BalancePanelProps {
  readonly hand: Hand;
  readonly profile: LookProfile;
  readonly picking: boolean;
  readonly onPick: (on: boolean) => void;
}

const fromWords = {
  'as-shot': lookLabels.asShot,
  target: lookLabels.ofTarget,
  neutral: lookLabels.pointedAt,
  temperature: lookLabels.byTemperature,
} as const;

export function BalancePanel({ hand, profile, picking, onPick }: BalancePanelProps): ReactNode {
  const { from } = hand.look.balance;
  return (
    <>
      <BalanceFigure hand={hand} asShotWhite={profile.asShotWhite} />
      <div className="panel-side">
        <p className="panel-said">{fromWords[from]}</p>
        <div className="panel-presses">
          <button
            type="button"
            className="press"
            disabled={from === 'as-shot'}
            onClick={() => hand.change({ balance: { from: 'as-shot' } })}
          >
            {lookLabels.takeAsShot}
          </button>
          <button
            type="button"
            className="press"
            disabled={from === 'target' || profile.targetNeutral === null}
            onClick={() => hand.change({ balance: { from: 'target' } })}
          >
            {lookLabels.takeTarget}
          </button>
          <button type="button" className="press" aria-pressed={picking} onClick={() => onPick(!picking)}>
            {lookLabels.pickNeutral}
          </button>
        </div>
        {picking ? <p className="panel-hint">{lookLabels.picking}</p> : null}
        <Knob hand={hand} number={{ name: 'balance.temperatureK' }} />
        <Knob hand={hand} number={{ name: 'balance.duv' }} />
        <p className="panel-legend">
          <span className="legend-line" data-line="planck" /> {lookLabels.planck}{' '}
          <span className="legend-line" data-line="daylight" /> {lookLabels.daylight}
        </p>
      </div>
    </>
  );
}
