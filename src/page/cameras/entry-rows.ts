import type { CameraEntry, Door, Station } from '../../contract/index.ts';
import { cameraAddresses, hostKeyNames, pageLabels, sentence } from '../../words/index.ts';

/** One thing to enter, or to compare: its name and what stands there. */
export type EntryRow = readonly [term: string, value: string];

/** What is the same for every camera that may come in. */
export function stationRows(station: Station): readonly EntryRow[] {
  const ways = station.cameras.filter(({ ended }) => !ended).flatMap(({ protocols }) => protocols);
  const passive: readonly EntryRow[] = ways.some((way) => way !== 'sftp')
    ? [[pageLabels.passive, passiveOf(station)]]
    : [];
  return [[pageLabels.address, addressesOf(station)], [pageLabels.folder, pageLabels.folderTop], ...passive];
}

/** Whether some camera sends its password so that everybody on the network can read it. */
export function isInClear({ cameras, encryptedOnly }: Station): boolean {
  return !encryptedOnly && cameras.some(({ ended, protocols }) => !ended && protocols.includes('ftp'));
}

/** How one camera comes in: the doors it may use and that are open, its log-in, its watched folders. */
export function cameraRows(camera: CameraEntry, station: Station): readonly EntryRow[] {
  const { user, password, protocols, watched } = camera;
  const folders: readonly EntryRow[] = watched.map((folder) => [pageLabels.watchedFolder, folder]);
  if (protocols.length === 0) {
    return folders.length > 0 ? folders : [[pageLabels.comesBy, pageLabels.byNoDoor]];
  }
  const doors = doorRows(camera, station);
  return [
    ...(doors.length > 0 ? doors : ([[pageLabels.comesBy, pageLabels.doorsShut]] as const)),
    [pageLabels.user, user],
    [pageLabels.password, password ?? pageLabels.passwordHidden],
    ...folders,
  ];
}

/** FTPS has two ways: TLS from the first byte has a port of its own, the other begins as plain FTP. */
function doorRows({ protocols }: CameraEntry, station: Station): readonly EntryRow[] {
  const { encryptedOnly, certificate } = station;
  const ftp = portOf(station, 'ftp');
  const rows: readonly (readonly [string, number | null])[] = [
    [pageLabels.methodFtp, protocols.includes('ftp') && !encryptedOnly ? ftp : null],
    [pageLabels.ftpsExplicit, protocols.includes('ftps') && certificate !== null ? ftp : null],
    [pageLabels.ftpsImplicit, protocols.includes('ftps') ? portOf(station, 'ftps') : null],
    [pageLabels.sftp, protocols.includes('sftp') ? portOf(station, 'sftp') : null],
  ];
  return rows.flatMap(([label, port]) =>
    port === null ? [] : [[label, `${pageLabels.portNumber} ${port}`] as const],
  );
}

/**
 * By what a client knows that it has reached this station: it compares the one of its own kind. Where some camera may come
 * by SFTP.
 */
export function hostKeyRows(station: Station): readonly EntryRow[] {
  const sftp = doorOf(station, 'sftp');
  const isWanted = station.cameras.some(({ ended, protocols }) => !ended && protocols.includes('sftp'));
  if (sftp?.port == null || !isWanted) return [];
  return (sftp.hostKeys ?? []).map(({ kind, fingerprint }) => [
    `${pageLabels.hostKey}, ${hostKeyNames[kind]}`,
    fingerprint,
  ]);
}

function portOf(station: Station, name: Door['name']): number | null {
  return doorOf(station, name)?.port ?? null;
}

function doorOf({ doors }: Station, name: Door['name']): Door | undefined {
  return doors.find((door) => door.name === name);
}

/** With the ports that a firewall must let through. */
function passiveOf({ passive: { from, to } }: Station): string {
  return `${pageLabels.on} (${pageLabels.dataPorts} ${from}-${to})`;
}

/** Where a camera finds the station, or why it does not. */
function addressesOf(station: Station): string {
  const trouble = doorOf(station, 'ftp')?.trouble;
  if (trouble?.code === 'line.no-private-address') return sentence(trouble);
  const addresses = cameraAddresses(station);
  return addresses.length === 0 ? pageLabels.noAddress : addresses.join('  or  ');
}
