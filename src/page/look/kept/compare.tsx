import { type KeyboardEvent, type ReactNode, useEffect, useRef } from 'react';
import type { Frame, Look as KeptLook } from '../../../contract/index.ts';
import { lookLabels, pageLabels, versionPhrase } from '../../../words/index.ts';
import { lookPictureAddress } from '../../link/index.ts';
import { dayAndTime } from '../../set/clock.ts';

interface CompareProps {
  readonly frame: Frame;
  readonly versions: readonly [KeptLook, KeptLook];
  readonly onClose: () => void;
}

const widthPx = 1280;

/** Two kept versions of the frame side by side, as the station renders them. Takes the focus, and gives it back. */
export function Compare({ frame, versions, onClose }: CompareProps): ReactNode {
  const close = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    const from = document.activeElement;
    close.current?.focus();
    return () => {
      if (from instanceof HTMLElement && from.isConnected) from.focus();
    };
  }, []);
  const leave = ({ key }: KeyboardEvent): void => {
    if (key === 'Escape') onClose();
  };
  return (
    <section className="look-compare" aria-label={lookLabels.compare} onKeyDown={leave}>
      {versions.map((look) => (
        <figure key={look.id}>
          <p className="compare-wait">{lookLabels.onItsWay}</p>
          <img src={lookPictureAddress(frame.id, widthPx, look.hash)} alt={`${look.name}, ${look.version}`} />
          <figcaption className="paper">
            {look.name}: {versionPhrase(look.version, dayAndTime(Date.parse(look.savedAt)), look.savedBy)}
          </figcaption>
        </figure>
      ))}
      <button
        ref={close}
        type="button"
        className="press paper"
        aria-description={lookLabels.comparedLead}
        onClick={onClose}
      >
        {pageLabels.close}
      </button>
    </section>
  );
}
