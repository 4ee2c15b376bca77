import type { ReactNode } from 'react';
import type { Station } from '../../contract/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { cameraRows, type EntryRow, stationRows } from './entry-rows.ts';

/** Address, ports, users, passwords and the rest, exactly as they are entered: for all cameras, then for each. */
export function CameraEntries({ station }: { readonly station: Station }): ReactNode {
  return (
    <div className="entries">
      <Entries rows={stationRows(station)} />
      {station.cameras
        .filter((camera) => !camera.ended)
        .map((camera) => (
          <section key={camera.name}>
            <h3>{camera.name}</h3>
            <Entries rows={cameraRows(camera, station)} />
          </section>
        ))}
    </div>
  );
}

function Entries({ rows }: { readonly rows: readonly EntryRow[] }): ReactNode {
  return (
    <dl className="entry-list">
      {rows.map(([term, value]) => (
        <div key={`${term} ${value}`}>
          <dt>{term}</dt>
          <dd>
            <PlainWords text={value} />
          </dd>
        </div>
      ))}
    </dl>
  );
}
