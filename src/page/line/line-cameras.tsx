import type { ReactNode } from 'react';
import type { CameraEntry, LineCheck } from '../../contract/index.ts';
import { lineLabels, sentence, sheetLabels } from '../../words/index.ts';
import { latelyOf } from '../cameras/lately.ts';
import { LineList } from '../cameras/line-list.tsx';
import { PlainWords } from '../plain-words.tsx';
import { addressOf } from '../state/index.ts';
import type { Clock } from './way.ts';

interface LineCamerasProps extends Clock {
  readonly check: LineCheck | null;
  readonly cameras: readonly CameraEntry[];
}

/** Lines of a camera's diary that stand on its card; the diary below has the rest. */
const linesShown = 6;

/** Each camera: when it was heard of, what to enter on it, what its speed means, what it did last. */
export function LineCameras({ check, cameras, when }: LineCamerasProps): ReactNode {
  const living = cameras.filter(({ ended }) => !ended);
  if (living.length === 0) return <p>{lineLabels.noCameras}</p>;
  return (
    <ul className="line-cameras">
      {living.map((camera) => (
        <li key={camera.name}>
          <h3>{camera.name}</h3>
          <p className="line-soft">{heardOf(camera, when)}</p>
          <Entered check={check} camera={camera} />
          <Speed check={check} camera={camera} />
          <Lately camera={camera} />
          {camera.protocols.length === 0 ? null : (
            <p>
              <a href={addressOf({ page: 'camera-sheet', camera: camera.name })}>
                {sheetLabels.titleOf(camera.name)}
              </a>
            </p>
          )}
        </li>
      ))}
    </ul>
  );
}

function heardOf({ connected, lastSeen }: CameraEntry, when: Clock['when']): string {
  if (connected) return lineLabels.connected;
  return lastSeen === null ? lineLabels.never : lineLabels.lastSeen(when(lastSeen));
}

interface CameraProps {
  readonly check: LineCheck | null;
  readonly camera: CameraEntry;
}

function Entered({ check, camera }: CameraProps): ReactNode {
  const line = check?.cameras.find(({ name }) => name === camera.name);
  if (line === undefined || line.enter === null) return null;
  return (
    <p>{line.entered === line.enter ? lineLabels.entered(line.entered) : lineLabels.enter(line.enter)}</p>
  );
}

function Speed({ check, camera }: CameraProps): ReactNode {
  const speed = check?.cameras.find(({ name }) => name === camera.name)?.speed ?? null;
  if (check === null || camera.protocols.length === 0) return null;
  if (speed === null) return <p className="line-soft">{lineLabels.notMeasured}</p>;
  return (
    <p>
      <PlainWords text={sentence(speed.finding)} /> {lineLabels.busy(Math.round(speed.busy * 100))}
    </p>
  );
}

function Lately({ camera }: { readonly camera: CameraEntry }): ReactNode {
  const own = camera.log.filter((line) => line.camera === camera.name);
  if (own.length === 0) return null;
  return (
    <section aria-label={`${lineLabels.diary}: ${camera.name}`}>
      <h4>{lineLabels.diary}</h4>
      <LineList lines={[...latelyOf(own, linesShown)].reverse()} />
    </section>
  );
}
