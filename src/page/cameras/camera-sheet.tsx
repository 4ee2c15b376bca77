import type { Dispatch, ReactNode } from 'react';
import type { CameraEntry, Station } from '../../contract/index.ts';
import { pageLabels, sentence } from '../../words/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { clockTime } from '../set/clock.ts';
import type { PageAction, PageState } from '../state/index.ts';
import { AddCamera } from './add-camera.tsx';
import { CameraAccess } from './camera-access.tsx';
import { CameraSettings } from './camera-settings.tsx';
import { CertificateCard } from './certificate-card.tsx';
import { DiaryList } from './diary-list.tsx';
import { latelyOf } from './lately.ts';

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
      onClose={() => dispatch({ type: 'card', card: null })}
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
          <CameraLogs cameras={state.station.cameras} />
          <section className="camera-house">
            {state.station.cameras.map((camera) => (
              <CameraAccess key={camera.name} camera={camera} />
            ))}
            <AddCamera />
            <DiaryList />
          </section>
        </>
      )}
    </CardDialog>
  );
}

/** Address, port, user, password and the rest, exactly as they are entered. */
export function CameraEntries({ station }: { readonly station: Station }): ReactNode {
  const ftp = station.doors.find((door) => door.name === 'ftp');
  const shared: readonly (readonly [string, string])[] = [
    [pageLabels.method, station.encryptedOnly ? pageLabels.methodFtps : pageLabels.methodFtp],
    [pageLabels.address, addressesOf(station)],
    [pageLabels.port, ftp?.port == null ? pageLabels.doorShut : String(ftp.port)],
    [pageLabels.passive, pageLabels.on],
    [pageLabels.folder, pageLabels.folderTop],
    ...ftpsRows(station),
    ...sftpRows(station),
  ];
  return (
    <div className="entries">
      <Entries rows={shared} />
      {station.cameras
        .filter((camera) => !camera.ended)
        .map((camera) => (
          <Entries
            key={camera.name}
            rows={[
              [pageLabels.user, camera.user],
              [pageLabels.password, camera.password ?? pageLabels.passwordHidden],
            ]}
          />
        ))}
    </div>
  );
}

/** For cameras that speak FTPS: TLS from the first byte has a port of its own; the other way begins as plain FTP. */
function ftpsRows({ doors, certificate }: Station): (readonly [string, string])[] {
  const portOf = (name: string): number | null => doors.find((door) => door.name === name)?.port ?? null;
  const rows: readonly (readonly [string, number | null])[] = [
    [pageLabels.ftpsImplicit, portOf('ftps')],
    [pageLabels.ftpsExplicit, certificate === null ? null : portOf('ftp')],
  ];
  return rows.flatMap(([label, port]) =>
    port === null ? [] : [[label, `${pageLabels.portNumber} ${port}`] as const],
  );
}

/** For cameras that can keep the line secret: the port, and by what the camera knows that it has reached us. */
function sftpRows({ doors }: Station): (readonly [string, string])[] {
  const sftp = doors.find((door) => door.name === 'sftp');
  const [key] = sftp?.hostKeys ?? [];
  if (sftp?.port == null) return [];
  const port: [string, string] = [pageLabels.sftp, `${pageLabels.portNumber} ${sftp.port}`];
  return key === undefined ? [port] : [port, [pageLabels.hostKey, key.fingerprint]];
}

function Entries({ rows }: { readonly rows: readonly (readonly [string, string])[] }): ReactNode {
  return (
    <dl className="entry-list">
      {rows.map(([term, value]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** Cameras are given IPv4 addresses of the local network; others are shown only where there is no such. */
function addressesOf(station: Station): string {
  const four = station.addresses.filter(({ family }) => family === 'IPv4');
  const local = four.filter((address) => address.private);
  const best = local.length > 0 ? local : four.length > 0 ? four : station.addresses;
  return best.length === 0 ? pageLabels.noAddress : best.map(({ address }) => address).join('  or  ');
}

function CameraLogs({ cameras }: { readonly cameras: readonly CameraEntry[] }): ReactNode {
  const spoken = cameras.filter((camera) => camera.log.length > 0);
  if (spoken.length === 0) return null;
  return (
    <section className="lately">
      <h3>{pageLabels.lately}</h3>
      {spoken.map((camera) => (
        <ul key={camera.name}>
          {latelyOf(camera.log).map(({ at, finding }) => (
            <li key={`${at} ${finding.code}`}>
              <time dateTime={at}>{clockTime(Date.parse(at))}</time>
              <span>{sentence(finding)}</span>
            </li>
          ))}
        </ul>
      ))}
    </section>
  );
}
