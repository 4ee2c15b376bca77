import type { Dispatch, ReactNode } from 'react';
import { clockLabels, pageLabels } from '../../words/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { addressOf, type PageAction, type PageState } from '../state/index.ts';
import { AddCamera } from './add-camera.tsx';
import { CameraEntries } from './camera-entries.tsx';
import { CameraSettings } from './camera-settings.tsx';
import { CertificateCard } from './certificate-card.tsx';
import { LatelyList } from './lately-list.tsx';

interface CameraSheetProps {
  readonly state: PageState;
  readonly dispatch: Dispatch<PageAction>;
}

/** What to enter on the camera, at hand at any time. */
export function CameraSheet({ state, dispatch }: CameraSheetProps): ReactNode {
  return (
    <CardDialog
      title={pageLabels.cameraSheet}
      open={state.card === 'camera-sheet'}
      onClose={() => dispatch({ type: 'card-closed', card: 'camera-sheet' })}
    >
      {state.station === null ? null : (
        <>
          <CameraEntries station={state.station} />
          <CertificateCard station={state.station} />
          {state.station.cameras
            .filter((camera) => !camera.ended)
            .map((camera) => (
              <CameraSettings key={camera.name} camera={camera} />
            ))}
          <LatelyList cameras={state.station.cameras} />
          <p className="clock-link">
            <a href="/clock" target="_blank" rel="noreferrer">
              {clockLabels.link}
            </a>
          </p>
          <section className="camera-house">
            <AddCamera />
            <p>
              <a className="to-sheet" href={addressOf({ page: 'line' })}>
                {pageLabels.accessOnLine}
              </a>
            </p>
          </section>
        </>
      )}
    </CardDialog>
  );
}
