import type { ReactNode } from 'react';
import type { Size } from '../../image/index.ts';
import type { LookProfile } from '../../look/index.ts';
import { pageLabels } from '../../words/index.ts';
import { BalancePanel } from './instruments/balance-panel.tsx';
import { CurvePanel } from './instruments/curve-panel.tsx';
import { GeometryPanel } from './instruments/geometry-panel.tsx';
import type { Hand } from './instruments/hand.ts';
import { HuesPanel } from './instruments/hues-panel.tsx';
import { type Instrument, instrumentName } from './instruments/instruments.ts';
import {
  ChannelsPanel,
  DetailPanel,
  ExposurePanel,
  GrainPanel,
  MonochromePanel,
  TintPanel,
} from './instruments/knob-panels.tsx';
import type { Tool } from './stage/tool.ts';

interface BenchProps {
  readonly instrument: Instrument;
  readonly hand: Hand;
  readonly profile: LookProfile;
  /** The whole upright original; null while there is no picture. */
  readonly full: Size | null;
  /** What the picture is pointed at for. */
  readonly tool: Tool | null;
  readonly onTool: (tool: Tool | null) => void;
  readonly onClose: () => void;
  /** What is read, and what is kept. */
  readonly target: ReactNode;
  readonly versions: ReactNode;
}

/** The instrument that is taken out, on a card of its own. */
export function Bench(props: BenchProps): ReactNode {
  const { instrument } = props;
  return (
    <section
      className="look-bench paper"
      id="look-bench"
      aria-label={instrumentName(instrument)}
      data-instrument={instrument}
    >
      <header>
        <h2>{instrumentName(instrument)}</h2>
        <button type="button" className="bench-close" aria-label={pageLabels.close} onClick={props.onClose}>
          ×
        </button>
      </header>
      <div className="bench-parts">{panel(props)}</div>
    </section>
  );
}

function panel({ instrument, hand, ...props }: BenchProps): ReactNode {
  switch (instrument) {
    case 'balance':
      return (
        <BalancePanel
          hand={hand}
          profile={props.profile}
          picking={props.tool === 'neutral'}
          onPick={(on) => props.onTool(on ? 'neutral' : null)}
        />
      );
    case 'exposure':
      return <ExposurePanel hand={hand} />;
    case 'curve':
      return <CurvePanel hand={hand} />;
    case 'channels':
      return <ChannelsPanel hand={hand} />;
    case 'hues':
      return <HuesPanel hand={hand} />;
    case 'monochrome':
      return <MonochromePanel hand={hand} />;
    case 'tint':
      return <TintPanel hand={hand} />;
    case 'detail':
      return <DetailPanel hand={hand} />;
    case 'grain':
      return <GrainPanel hand={hand} />;
    case 'geometry':
      return <GeometryPanel hand={hand} full={props.full} tool={props.tool} onTool={props.onTool} />;
    case 'target':
      return props.target;
    case 'versions':
      return props.versions;
  }
}
