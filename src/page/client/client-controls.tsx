import type { ReactNode } from 'react';
import { clientLabels, soundLabels } from '../../words/index.ts';
import { useFullScreen } from '../set/use-full-screen.ts';
import { addressOf } from '../state/index.ts';
import { type CopySpace, copySpaces } from '../viewport/index.ts';
import { type MaskChoice, shapes } from './mask-choice.ts';

interface ClientControlsProps {
  readonly awake: boolean;
  readonly mask: MaskChoice;
  readonly onMask: (mask: MaskChoice) => void;
  /** Null while the newest is followed. */
  readonly onFollow: (() => void) | null;
}

/** For the operator's hand; they go when nobody moves it, so that the client sees the picture and nothing else. */
export function ClientControls({ awake, mask, onMask, onFollow }: ClientControlsProps): ReactNode {
  const fullScreen = useFullScreen();
  return (
    <footer className="client-controls paper" data-awake={awake}>
      <a href={addressOf({ page: 'set' })}>{clientLabels.toSet}</a>
      <label>
        <span>{clientLabels.shape}</span>
        <select
          aria-label={clientLabels.shape}
          value={mask.shape}
          onChange={(event) => onMask({ ...mask, shape: event.target.value })}
        >
          {Object.keys(shapes).map((name) => (
            <option key={name} value={name}>
              {name === '' ? clientLabels.wholePicture : name}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span>{clientLabels.copySpace}</span>
        <select
          aria-label={clientLabels.copySpace}
          value={mask.copySpace ?? ''}
          onChange={(event) =>
            onMask({
              ...mask,
              copySpace: copySpaces.find((side): side is CopySpace => side === event.target.value) ?? null,
            })
          }
        >
          <option value="">{clientLabels.noCopySpace}</option>
          {copySpaces.map((side) => (
            <option key={side} value={side}>
              {clientLabels.copySpaces[side]}
            </option>
          ))}
        </select>
      </label>
      <button type="button" className="press" disabled={onFollow === null} onClick={() => onFollow?.()}>
        {clientLabels.follow}
      </button>
      <button
        type="button"
        className="press"
        aria-pressed={fullScreen.on}
        disabled={!fullScreen.can}
        onClick={fullScreen.toggle}
      >
        {soundLabels.fullScreen}
      </button>
    </footer>
  );
}
