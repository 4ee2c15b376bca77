import { type ReactNode, useId, useState } from 'react';
import type { CameraEntry, CameraPatch } from '../../contract/index.ts';
import { expectedFiles } from '../../facts/index.ts';
import { expectedFilesNames, pageLabels, sentence } from '../../words/index.ts';
import { patchCamera } from '../link/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { ClockOffer } from './clock-offer.tsx';
import { RowTime } from './row-time.tsx';

/** What people say of a camera: what it sends, and that it is not shooting now. */
export function CameraSettings({ camera }: { readonly camera: CameraEntry }): ReactNode {
  const group = useId();
  const [lost, setLost] = useState(false);
  const change = (patch: CameraPatch): void => {
    patchCamera(camera.name, patch).then(
      () => setLost(false),
      () => setLost(true),
    );
  };
  return (
    <section className="camera-settings">
      <fieldset className="camera-choice" aria-labelledby={`${group}-name`}>
        <span className="camera-choice-name" id={`${group}-name`}>
          {camera.name} {pageLabels.expectsLegend}
        </span>
        <div className="camera-choices">
          {[...expectedFiles, null].map((expects) => (
            <label key={expects ?? 'unsaid'}>
              <input
                type="radio"
                name={group}
                checked={camera.expects === expects}
                onChange={() => change({ expects })}
              />
              {expects === null ? pageLabels.expectsUnsaid : expectedFilesNames[expects]}
            </label>
          ))}
        </div>
      </fieldset>
      {camera.trouble === null ? null : (
        <p className="camera-trouble">
          <span>
            <PlainWords text={sentence(camera.trouble)} />
          </span>
          <button type="button" onClick={() => change({ quiet: true })}>
            {pageLabels.notShootingNow}
          </button>
        </p>
      )}
      <RowTime camera={camera} />
      <ClockOffer camera={camera} />
      <p role="status">{lost ? pageLabels.notTaken : ''}</p>
    </section>
  );
}
