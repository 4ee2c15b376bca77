import type { ReactNode } from 'react';
import type { Frame, Look as KeptLook } from '../../../contract/index.ts';
import { lookLabels, pageLabels, versionPhrase } from '../../../words/index.ts';
import { lookPictureAddress } from '../../link/index.ts';
import { clockTime } from '../../set/clock.ts';

interface CompareProps {
  readonly frame: Frame;
  readonly versions: readonly [KeptLook, KeptLook];
  readonly onClose: () => void;
}

const widthPx = 1280;

/** Two kept versions of the frame side by side, as the station renders them. */
export function Compare({ frame, versions, onClose }: CompareProps): ReactNode {
  return (
    <section className="look-compare" aria-label={lookLabels.compare}>
      {versions.map((look) => (
        <figure key={look.id}>
          <p className="compare-wait">{lookLabels.onItsWay}</p>
          <img src={lookPictureAddress(frame.id, widthPx, look.hash)} alt={`${look.name}, ${look.version}`} />
          <figcaption className="paper">
            {look.name}: {versionPhrase(look.version, clockTime(Date.parse(look.savedAt)), look.savedBy)}
          </figcaption>
        </figure>
      ))}
      <button type="button" className="press paper" onClick={onClose}>
        {pageLabels.close}
      </button>
    </section>
  );
}
