import type { Finding } from '../facts/index.ts';
import { certificateSteps, hostKeyNames, pageLabels } from './page-labels.ts';
import { sentence } from './sentences.ts';

/** What a station tells of itself, as far as a camera's sheet needs it. */
export interface SheetStation {
  readonly addresses: readonly SheetAddress[];
  readonly doors: readonly {
    readonly name: 'web' | 'ftp' | 'ftps' | 'sftp';
    readonly port: number | null;
    readonly trouble: Finding | null;
    readonly hostKeys?:
      | readonly { readonly kind: keyof typeof hostKeyNames; readonly fingerprint: string }[]
      | undefined;
  }[];
  readonly passive: { readonly from: number; readonly to: number };
  readonly encryptedOnly: boolean;
  readonly certificate: { readonly name: string; readonly fingerprint: string } | null;
}

interface NamedStation extends SheetStation {
  readonly mdns: string | null;
}

interface SheetAddress {
  readonly address: string;
  readonly family: 'IPv4' | 'IPv6';
  readonly private: boolean;
}

/** What the line check knows of the way to the station; what is left out is not known. */
export interface SheetWayIn {
  /** The station's address of the network this camera is in. */
  readonly enter?: string | null;
  /** Every address that a camera may be given. */
  readonly mayEnter?: readonly string[];
  /** The station's name on the network. */
  readonly mdns?: string | null;
}

export interface SheetCamera {
  readonly name: string;
  readonly user: string;
  readonly password: string | null;
  readonly protocols: readonly SheetWay[];
  readonly ended: boolean;
}

export type SheetWay = 'ftp' | 'ftps' | 'sftp';

/** One thing to enter: its name, what is entered, read in groups where it is long, and what to know about it. */
export interface SheetRow {
  readonly term: string;
  readonly groups: readonly string[];
  readonly note: string | null;
}

/** One way in: what is entered for it, from top to bottom, then what is only compared, then what to know. */
export interface SheetForm {
  readonly way: SheetWay;
  readonly title: string;
  readonly rows: readonly SheetRow[];
  readonly compare: readonly SheetRow[];
  readonly notes: readonly string[];
}

export const sheetLabels = {
  title: 'Camera sheet',
  titleOf: (camera: string): string => `Camera sheet: ${camera}`,
  lead: 'Enter this in the camera’s menu for file transfer, from top to bottom.',
  print: 'Print',
  pdf: 'As PDF',
  back: 'Back',
  toSheet: 'Sheet to print',
  protocol: 'Protocol',
  address: 'Server address',
  port: 'Port',
  user: 'User',
  password: 'Password',
  passive: 'Passive mode',
  folder: 'Folder',
  on: 'on',
  top: '/',
  gaps: 'small letters; the gaps are not typed',
  hidden: 'ask the operator',
  orEmpty: 'or leave empty',
  certificate: 'Root certificate',
  fingerprint: 'Its SHA-256',
  hostKey: (kind: string): string => `Host key ${kind}`,
  or: (addresses: string): string => `or ${addresses}, whichever network the camera is in`,
  orName: (name: string): string => `or, where the camera takes a name: ${name}, which stays the same`,
  implicit: (port: number): string => `implicit, if the camera asks for that: ${port}`,
  dataPorts: (from: number, to: number): string => `data ports ${from}-${to}`,
  secret: 'Whoever reads this sheet can send files to the station. Keep it with the camera.',
  written: (when: string, version: string): string => `As it stood on ${when}. Setside ${version}.`,
  noForm: 'This camera may come in by none of the doors that are open. See its card on the Set page.',
  noSuchCamera: (name: string): string => `There is no camera “${name}”.`,
} as const;

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
      { term: sheetLabels.certificate, groups: [certificate.name], note: null },
      { term: sheetLabels.fingerprint, groups: eightPairs(certificate.fingerprint), note: null },
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
    note,
  });
  return [
    one(sheetLabels.protocol, protocol),
    one(sheetLabels.address, address, addressNote(others, station.mdns)),
    one(sheetLabels.port, String(port), portNote),
    one(sheetLabels.user, user),
    { term: sheetLabels.password, groups, note: groups.length > 1 ? sheetLabels.gaps : null },
    one(sheetLabels.passive, sheetLabels.on, sheetLabels.dataPorts(from, to)),
    one(sheetLabels.folder, sheetLabels.top, sheetLabels.orEmpty),
  ];
}

function addressNote(others: readonly string[], name: string | null): string | null {
  const notes = [
    ...(others.length === 0 ? [] : [sheetLabels.or(others.join(', '))]),
    ...(name === null ? [] : [sheetLabels.orName(name)]),
  ];
  return notes.length === 0 ? null : notes.join('; ');
}

/** A long password without gaps of its own is read, and typed, four letters at a time. */
export function passwordGroups(password: string): readonly string[] {
  return /^[a-z0-9]{12,}$/.test(password) ? (password.match(/.{1,4}/g) ?? [password]) : [password];
}

/**
 * Cameras are given IPv4 addresses of the local network; others only where there is no such, and none where every
 * camera would be shut out there.
 */
export function cameraAddresses({
  addresses,
  doors,
}: Pick<SheetStation, 'addresses' | 'doors'>): readonly string[] {
  if (doors.some(({ trouble }) => trouble?.code === 'line.no-private-address')) return [];
  const four = addresses.filter(({ family }) => family === 'IPv4');
  const local = four.filter((address) => address.private);
  const best = local.length > 0 ? local : four.length > 0 ? four : addresses;
  return best.map(({ address }) => address);
}

/** Those that a camera may be given, its own first; all, where that is not known. */
function addressesIn(
  addresses: readonly SheetAddress[],
  { enter = null, mayEnter = [] }: SheetWayIn,
): readonly SheetAddress[] {
  const isFirst = ({ address }: SheetAddress): boolean => address === enter;
  const others = addresses.filter((each) => !isFirst(each));
  const near = others.filter(({ address }) => mayEnter.includes(address));
  const first = addresses.filter(isFirst);
  return [...first, ...(near.length + first.length > 0 && mayEnter.length > 0 ? near : others)];
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
