import type { ReactNode } from 'react';
import type { Look } from '../../look/index.ts';
import { lookLabels } from '../../words/index.ts';
import { Glyph } from './instruments/glyph.tsx';
import { type Instrument, instrumentName, instruments, isTurned } from './instruments/instruments.ts';

interface StripProps {
  readonly look: Look;
  readonly open: Instrument | null;
  readonly onOpen: (instrument: Instrument | null) => void;
}

/** The instruments as small drawings; one at a time is taken out. */
export function Strip({ look, open, onOpen }: StripProps): ReactNode {
  return (
    <nav className="look-strip" id="look-strip" tabIndex={-1} aria-label={lookLabels.instruments}>
      {instruments.map((instrument) => (
        <button
          key={instrument}
          type="button"
          className="strip-piece paper"
          aria-expanded={open === instrument}
          aria-controls="look-bench"
          data-instrument={instrument}
          data-turned={isTurned(look, instrument)}
          onClick={() => onOpen(open === instrument ? null : instrument)}
        >
          <Glyph instrument={instrument} look={look} />
          <span>{instrumentName(instrument)}</span>
        </button>
      ))}
    </nav>
  );
}
