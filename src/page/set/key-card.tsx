import type { Dispatch, ReactNode } from 'react';
import { pageLabels } from '../../words/index.ts';
import type { PageAction, PageState } from '../state/index.ts';
import { CardDialog } from './card-dialog.tsx';
import { type KeyBinding, keymap } from './keymap.ts';

interface KeyCardProps {
  readonly state: PageState;
  readonly dispatch: Dispatch<PageAction>;
}

/** The keys there are, and the switch that rests the letters. */
export function KeyCard({ state, dispatch }: KeyCardProps): ReactNode {
  return (
    <CardDialog
      title={pageLabels.keys}
      open={state.card === 'keys'}
      onClose={() => dispatch({ type: 'card-closed', card: 'keys' })}
    >
      <dl className="key-list">
        {grouped().map(({ caps, does }) => (
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
        <input
          type="checkbox"
          checked={state.letterKeys}
          onChange={() => dispatch({ type: 'switch', what: 'letterKeys' })}
        />
        {pageLabels.letterKeys}
      </label>
    </CardDialog>
  );
}

/** Keys that do the same kind of thing share a line. */
function grouped(): { caps: string[]; does: string }[] {
  const lines = new Map<string, KeyBinding[]>();
  for (const binding of keymap) lines.set(binding.does, [...(lines.get(binding.does) ?? []), binding]);
  return [...lines].map(([does, bindings]) => ({ caps: bindings.map(({ cap }) => cap), does }));
}
