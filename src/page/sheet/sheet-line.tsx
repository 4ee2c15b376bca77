import { type ReactNode, useMemo } from 'react';
import { contactLabels, framesPhrase, jobLabels, pageLabels } from '../../words/index.ts';
import { type ShotStop, shotStops } from '../state/index.ts';
import type { SheetGroup, SheetJob } from './state/sheet-groups.ts';

interface SheetLineProps {
  readonly job: SheetJob & { readonly currentShot?: string | null };
  readonly groups: readonly SheetGroup[];
  /** Every frame is known. */
  readonly all: boolean;
  readonly onShot: (shot: string) => void;
}

/** The job's shots along the day's line, as on the Set page; here each leads to its sheet. */
export function SheetLine({ job, groups, all, onShot }: SheetLineProps): ReactNode {
  const stops = useMemo(
    () =>
      shotStops(
        job,
        groups.flatMap(({ frames }) => frames),
      ),
    [job, groups],
  );
  if (stops.length === 0) return null;
  const there = new Set(groups.map(({ id }) => id));
  return (
    <nav className="sheet-line" aria-label={contactLabels.shots}>
      <ol className="stops">
        {stops.map((stop) => (
          <li
            key={stop.id}
            className="stop"
            data-state={stop.state}
            {...(stop.current ? { 'aria-current': 'step' as const } : {})}
          >
            <button type="button" disabled={!there.has(stop.id)} onClick={() => onShot(stop.id)}>
              <span className="stop-name">{stop.name}</span>
              <span className="stop-state">{all || stop.frames > 0 ? stateWords(stop) : '…'}</span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}

function stateWords({ state, frames, heroes }: ShotStop): string {
  if (state === 'open') return pageLabels.shotOpen;
  const taken = framesPhrase(frames);
  return heroes === 0 ? taken : `${taken}, ${jobLabels.heroesThere(heroes)}`;
}
