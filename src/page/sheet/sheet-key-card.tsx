import type { ReactNode } from 'react';
import { contactLabels, jobLabels, markNames, pageLabels } from '../../words/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';

interface SheetKeyCardProps {
  readonly open: boolean;
  readonly letterKeys: boolean;
  readonly onLetterKeys: () => void;
  readonly onClose: () => void;
}

/** What `use-sheet-keys.ts` and `use-compare-keys.ts` listen to. */
const keys: readonly (readonly [caps: readonly string[], does: string])[] = [
  [['←', '→', '↑', '↓', 'Home', 'End'], contactLabels.keyArrows],
  [['Shift ←', 'Shift →', 'Shift ↑', 'Shift ↓'], contactLabels.keyReach],
  [['Space'], contactLabels.keyAdd],
  [['Ctrl A'], contactLabels.keyAll],
  [['Esc'], contactLabels.keyEmpty],
  [['H'], markNames.hero],
  [['S'], markNames.select],
  [['A'], markNames.alternate],
  [['O'], markNames.out],
  [['Alt ←', 'Alt →'], contactLabels.keyOrder],
  [['Enter'], contactLabels.keyLook],
  [['C'], contactLabels.keyClient],
  [['1', '2', '3', '4'], contactLabels.keyCompared],
  [['PageUp', 'PageDown'], contactLabels.keyBeside],
  [['+', '-', 'P'], contactLabels.keyZoom],
  [['L'], contactLabels.keyLay],
  [['Ctrl Z'], jobLabels.keyUndo],
  [['Ctrl Shift Z'], jobLabels.keyPutBack],
];

/** The keys of the sheet, and the switch that rests the letters. */
export function SheetKeyCard({ open, letterKeys, onLetterKeys, onClose }: SheetKeyCardProps): ReactNode {
  return (
    <CardDialog title={pageLabels.keys} open={open} onClose={onClose}>
      <dl className="key-list">
        {keys.map(([caps, does]) => (
          <div key={does}>
            <dt>
              {caps.map((cap) => (
                <kbd key={cap}>{cap}</kbd>
              ))}
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
      <label className="letter-keys">
        <input type="checkbox" checked={letterKeys} onChange={onLetterKeys} />
        {pageLabels.letterKeys}
      </label>
    </CardDialog>
  );
}
