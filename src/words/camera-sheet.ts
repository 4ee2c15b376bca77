import { addressesIn, addressNote, cameraAddresses } from './camera-addresses.ts';
import { sheetLabels } from './camera-sheet-labels.ts';
import type {
  NamedStation,
  SheetCamera,
  SheetForm,
  SheetRow,
  SheetStation,
  SheetWay,
  SheetWayIn,
} from './camera-sheet-shapes.ts';
import { certificateSteps, hostKeyNames, pageLabels } from './page-labels.ts';
import { sentence } from './sentences.ts';

/**
 * What to enter on a camera, a form for each way in that is open to it, in the order cameras ask for it (common practice,
 * no source: how, where to, who, then the details). None where it may come in by no open door. The address of the network this
 * camera is in stands first, where that is known.
 */
export function cameraForms(
  camera: SheetCamera,
  known: SheetStation,
  wayIn: SheetWayIn = {},
): readonly SheetForm[] {
  if (camera.ended) return [];
  const station = { ...known, addresses: addressesIn(known.addresses, wayIn), mdns: wayIn.mdns ?? null };
  const forms = { ftp: ftpForm, ftps: ftpsForm, sftp: sftpForm };
  return (['ftp', 'ftps', 'sftp'] as const)
    .filter((way) => camera.protocols.includes(way))
    .map((way) => forms[way](camera, station))
    .filter((form) => form !== null)
    .map((form) => ({ ...form, notes: [...shutOut(station), ...form.notes] }));
}

function ftpForm(camera: SheetCamera, station: NamedStation): SheetForm | null {
  const port = portOf(station, 'ftp');
  if (port === null || station.encryptedOnly) return null;
  return {
    way: 'ftp',
    title: 'FTP',
    rows: rowsOf(camera, station, 'FTP', port, null),
    compare: [],
    notes: [sentence({ code: 'line.ftp-in-clear', args: {} })],
  };
}

/** FTPS has two ways: TLS from the first byte has a port of its own, the other begins as plain FTP (RFC 4217). */
function ftpsForm(camera: SheetCamera, station: NamedStation): SheetForm | null {
  const { certificate } = station;
  const [explicit, implicit] = [portOf(station, 'ftp'), portOf(station, 'ftps')];
  const port = explicit ?? implicit;
  if (port === null || certificate === null) return null;
  const kind = explicit === null ? 'FTPS, implicit' : 'FTPS, explicit';
  const other = explicit === null || implicit === null ? null : sheetLabels.implicit(implicit);
  return {
    way: 'ftps',
    title: 'FTPS, encrypted',
    rows: rowsOf(camera, station, kind, port, other),
    compare: [
      { term: sheetLabels.certificate, groups: [certificate.name], exact: false, note: null },
      { term: sheetLabels.fingerprint, groups: eightPairs(certificate.fingerprint), exact: true, note: null },
    ],
    notes: [certificateSteps],
  };
}

function sftpForm(camera: SheetCamera, station: NamedStation): SheetForm | null {
  const port = portOf(station, 'sftp');
  if (port === null) return null;
  const keys = station.doors.find(({ name }) => name === 'sftp')?.hostKeys ?? [];
  return {
    way: 'sftp',
    title: 'SFTP, encrypted',
    rows: rowsOf(camera, station, 'SFTP', port, null).filter(({ term }) => term !== sheetLabels.passive),
    compare: keys.map(({ kind, fingerprint }) => ({
      term: sheetLabels.hostKey(hostKeyNames[kind]),
      groups: [fingerprint],
      exact: true,
      note: null,
    })),
    notes: [],
  };
}

function rowsOf(
  { user, password }: SheetCamera,
  station: NamedStation,
  protocol: string,
  port: number,
  portNote: string | null,
): readonly SheetRow[] {
  const [address = pageLabels.noAddress, ...others] = cameraAddresses(station);
  const { from, to } = station.passive;
  const groups = passwordGroups(password ?? sheetLabels.hidden);
  const one = (term: string, value: string, note: string | null = null): SheetRow => ({
    term,
    groups: [value],
    exact: term === sheetLabels.user,
    note,
  });
  return [
    one(sheetLabels.protocol, protocol),
    one(sheetLabels.address, address, addressNote(others, station.mdns)),
    one(sheetLabels.port, String(port), portNote),
    one(sheetLabels.user, user),
    { term: sheetLabels.password, groups, exact: true, note: groups.length > 1 ? sheetLabels.gaps : null },
    one(sheetLabels.passive, sheetLabels.on, sheetLabels.dataPorts(from, to)),
    one(sheetLabels.folder, sheetLabels.top, sheetLabels.orEmpty),
  ];
}

/** A long password without gaps of its own is read, and typed, four letters at a time. */
export function passwordGroups(password: string): readonly string[] {
  return /^[a-z0-9]{12,}$/.test(password) ? (password.match(/.{1,4}/g) ?? [password]) : [password];
}

/** A SHA-256 as four lines of eight pairs. */
function eightPairs(fingerprint: string): readonly string[] {
  return fingerprint.match(/(?:[^:]+:?){1,8}/g) ?? [fingerprint];
}

/** Why no camera reaches the station at all, under every form. */
function shutOut({ doors }: SheetStation): readonly string[] {
  const trouble = doors.find(({ name }) => name === 'ftp')?.trouble;
  return trouble?.code === 'line.no-private-address' ? [sentence(trouble)] : [];
}

function portOf({ doors }: SheetStation, name: SheetWay): number | null {
  return doors.find((door) => door.name === name)?.port ?? null;
}
