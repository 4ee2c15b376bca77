import type { ReactNode } from 'react';
import type { Remark } from '../../contract/index.ts';
import type { SharePoint } from '../../facts/index.ts';
import { pinName } from '../../words/index.ts';

interface PinsProps {
  readonly remarks: readonly Pick<Remark, 'id' | 'point' | 'by' | 'settled'>[];
  readonly names: ReadonlyMap<string, string>;
  /** Shares of the original to shares of the box that the pins lie in. */
  readonly toShown: (at: SharePoint) => SharePoint;
  readonly chosen: string | null;
  readonly onChoose: (id: string) => void;
}

/** The pins of a picture, laid over the box it fills. Number and outline tell them apart, never a colour alone. */
export function Pins({ remarks, names, toShown, chosen, onChoose }: PinsProps): ReactNode {
  return remarks.map(({ id, point, by, settled }) => {
    if (point === null) return null;
    const { x, y } = toShown(point);
    // Cut off by the look that the picture has now; the list tells of it.
    if (x < 0 || x > 1 || y < 0 || y > 1) return null;
    const name = names.get(id) ?? '';
    return (
      <button
        key={id}
        type="button"
        className="pin"
        data-settled={settled !== null}
        aria-pressed={chosen === id}
        aria-label={pinName(name, by.name, settled !== null)}
        style={{ left: `${x * 100}%`, top: `${y * 100}%` }}
        onClick={(event) => {
          event.stopPropagation();
          onChoose(id);
        }}
      >
        <span>{name}</span>
      </button>
    );
  });
}
