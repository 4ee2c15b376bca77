import type { ReactNode } from 'react';
import type { Station } from '../../contract/index.ts';
import { pageLabels, passwordGroups, sentence, sheetLabels } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { addressOf } from '../state/index.ts';
import { cameraRows, type EntryRow, hostKeyRows, isInClear, stationRows } from './entry-rows.ts';

/**
 * Address, ports, users, passwords and the rest, exactly as they are entered: for all cameras, then for each. What is only
 * compared stands last.
 */
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
            {camera.protocols.length === 0 ? null : (
              <a className="to-sheet" href={addressOf({ page: 'camera-sheet', camera: camera.name })}>
                {sheetLabels.toSheet}
              </a>
            )}
          </section>
        ))}
      {isInClear(station) ? (
        <p className="in-clear">{sentence({ code: 'line.ftp-in-clear', args: {} })}</p>
      ) : null}
      <HostKeys rows={hostKeyRows(station)} />
    </div>
  );
}

/** A fingerprint is one long word: it is broken in its middle or not at all. */
function HostKeys({ rows }: { readonly rows: readonly EntryRow[] }): ReactNode {
  if (rows.length === 0) return null;
  return (
    <dl className="entry-list host-keys">
      {rows.map(([term, print]) => {
        const middle = Math.ceil(print.length / 2);
        return (
          <div key={term}>
            <dt>{term}</dt>
            <dd>
              {print.slice(0, middle)}
              <wbr />
              {print.slice(middle)}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

/** Groups stand apart to the eye; what is copied has no gaps. */
function Groups({ text }: { readonly text: string }): ReactNode {
  return passwordGroups(text).map((group, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a group has no name but its place
    <span key={at} className="password-group">
      {group}
    </span>
  ));
}

function Entries({ rows }: { readonly rows: readonly EntryRow[] }): ReactNode {
  return (
    <dl className="entry-list">
      {rows.map(([term, value]) => (
        <div key={`${term} ${value}`}>
          <dt>{term}</dt>
          <dd>{term === pageLabels.password ? <Groups text={value} /> : <PlainWords text={value} />}</dd>
        </div>
      ))}
    </dl>
  );
}
