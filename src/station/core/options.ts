import { GiB, SetsideError } from '../../base/index.ts';
import { cameraNamePattern } from '../cameras/core/camera.ts';

/** What a person may write, by flag, by environment or in `setside.json`; everything may be missing. */
export interface StationWishes {
  readonly home?: string;
  readonly web?: number;
  /** Port for other devices that have a link. */
  readonly links?: number;
  readonly ftp?: number;
  readonly ftps?: number;
  /** Whether cameras must log in and send over TLS or SSH. */
  readonly encryptedOnly?: boolean;
  /** The oldest version of TLS that FTPS speaks. */
  readonly tlsFrom?: FtpsWish['minVersion'];
  /** Whether a data connection of FTPS must resume the session of its control connection. */
  readonly tlsResume?: boolean;
  readonly sftp?: number;
  /** Whether SFTP also offers what only old cameras need: SHA-1, CBC, an RSA host key. */
  readonly sftpOldCameras?: boolean;
  readonly passive?: PortRange;
  readonly bind?: string;
  /** Folders that everything is copied to. */
  readonly copy?: readonly string[];
  /** Whether a second place in memory counts. */
  readonly memoryCounts?: boolean;
  /** Folders that are watched for a camera's files. */
  readonly watch?: readonly WatchWish[];
  /** Folders that may be checked as cards from the page. */
  readonly card?: readonly string[];
  /** Every so many days all originals and copies are read again; 0: only when somebody asks. */
  readonly verifyEveryDays?: number;
  /** Silence of a camera after which something is said while shooting, minutes. */
  readonly silentAfterMinutes?: number;
  /** Whether the computer is kept from sleeping while a camera is at work. */
  readonly keepAwake?: boolean;
  /** Whether sidecars are written for frames that were marked. */
  readonly sidecars?: boolean;
  /** Free space below which new files are refused, megabytes. */
  readonly diskFloorMB?: number;
  /** What renderings may take, megabytes. */
  readonly renderingsMB?: number;
}

/** The same with nothing missing: what the rooms receive. */
export interface StationOptions {
  /** Folder of everything the station keeps; absolute. */
  readonly home: string;
  /** Port of the page on the loopback interface. */
  readonly webPort: number;
  /** Ports to try for devices with a link, in order; 0 is any free one. */
  readonly linkPorts: readonly number[];
  /** Ports to try for FTP, in order; 0 is any free one. */
  readonly ftpPorts: readonly number[];
  readonly ftps: FtpsWish;
  readonly sftp: SftpWish;
  readonly passive: PortRange;
  /** Address to listen on for cameras; null for every private address of this computer. */
  readonly bind: string | null;
  /** Second places, absolute. */
  readonly copies: readonly string[];
  /** Whether a second place in memory counts: for trials, since the power takes it along. */
  readonly memoryCounts: boolean;
  readonly watches: readonly WatchWish[];
  /** Folders that may be checked as cards from the page; removable disks and watched folders may be anyway. */
  readonly cards: readonly string[];
  /** Every so many days all originals and copies are read again; 0: only when somebody asks. */
  readonly verifyEveryDays: number;
  readonly silentAfterMs: number;
  readonly keepAwake: boolean;
  readonly sidecars: boolean;
  /** Below this much free space new files are refused while begun ones may end. */
  readonly diskFloorBytes: number;
  /** What the renderings in the home may take; those not asked for the longest go, and are made again when they are. */
  readonly renderingsBytesMax: number;
}

export interface FtpsWish {
  /** Ports to try, in order; 0 is any free one. */
  readonly ports: readonly number[];
  /** Nobody chose the port: then a station without this door is better than none. */
  readonly mayStayShut: boolean;
  /** Nothing crosses in clear, at the FTP door neither. */
  readonly encryptedOnly: boolean;
  readonly minVersion: 'TLSv1.2' | 'TLSv1.3';
  readonly resumption: 'accepted' | 'required';
}

export interface SftpWish {
  readonly port: number;
  /** Nobody chose the port: then a station without this door is better than none. */
  readonly mayStayShut: boolean;
  readonly oldCameras: boolean;
}

/** A folder whose files come in as this camera's. */
export interface WatchWish {
  readonly camera: string;
  readonly folder: string;
}

export interface PortRange {
  readonly from: number;
  readonly to: number;
}

/** Decision 0008, doors 14. The web port has no service registered with IANA (from memory). */
export const defaults = {
  webPort: 8460,
  /** The next one; where another program has it, any: the code that is scanned says which. */
  linkPorts: [8461, 0],
  /** The standard port, and where the system keeps that for itself, the same with a prefix. */
  ftpPorts: [21, 2121],
  /** As for FTP. 990 is registered with IANA for TLS from the first byte. */
  ftpsPorts: [990, 2990],
  sftpPort: 2222,
  /** One port for each upload under way; a firewall is opened for exactly these. In the dynamic range of RFC 6335. */
  passive: { from: 50_000, to: 50_099 },
  /** Disks rot slowly; a month is common practice for archives on disks (no source). */
  verifyEveryDays: 30,
  /** Between two set-ups a camera may well rest that long. */
  silentAfterMs: 10 * 60_000,
  /** Room for some forty raw files: enough to see the warning and change the disk. */
  diskFloorBytes: 1 * GiB,
  /** Half size and the sizes that pages ask for of some five thousand frames of 24 megapixels, at two megabytes each. */
  renderingsBytesMax: 10 * GiB,
} as const;

/**
 * The options with nothing missing. Earlier wishes win over later ones (flags, environment, settings file).
 */
export function resolveOptions(wishes: readonly StationWishes[], fallbackHome: string): StationOptions {
  const merged: StationWishes = Object.assign({}, ...[...wishes].reverse().map(withoutUndefined));
  return Object.freeze({
    home: merged.home ?? fallbackHome,
    webPort: merged.web ?? defaults.webPort,
    linkPorts: merged.links === undefined ? defaults.linkPorts : [merged.links],
    ftpPorts: merged.ftp === undefined ? defaults.ftpPorts : [merged.ftp],
    ftps: ftpsWish(merged),
    sftp: {
      port: merged.sftp ?? defaults.sftpPort,
      mayStayShut: merged.sftp === undefined,
      oldCameras: merged.sftpOldCameras ?? false,
    },
    passive: merged.passive ?? defaults.passive,
    bind: merged.bind ?? null,
    copies: merged.copy ?? [],
    memoryCounts: merged.memoryCounts ?? false,
    watches: merged.watch ?? [],
    cards: merged.card ?? [],
    verifyEveryDays: merged.verifyEveryDays ?? defaults.verifyEveryDays,
    silentAfterMs:
      merged.silentAfterMinutes === undefined ? defaults.silentAfterMs : merged.silentAfterMinutes * 60_000,
    keepAwake: merged.keepAwake ?? true,
    sidecars: merged.sidecars ?? true,
    diskFloorBytes: merged.diskFloorMB === undefined ? defaults.diskFloorBytes : merged.diskFloorMB * 1e6,
    renderingsBytesMax:
      merged.renderingsMB === undefined ? defaults.renderingsBytesMax : merged.renderingsMB * 1e6,
  });
}

function ftpsWish({ ftps, encryptedOnly, tlsFrom, tlsResume }: StationWishes): FtpsWish {
  return {
    ports: ftps === undefined ? defaults.ftpsPorts : [ftps],
    mayStayShut: ftps === undefined,
    encryptedOnly: encryptedOnly ?? false,
    minVersion: tlsFrom ?? 'TLSv1.2',
    resumption: tlsResume === true ? 'required' : 'accepted',
  };
}

/** A wish that is undefined is no wish, and must not hide a later one. */
function withoutUndefined(wish: StationWishes): StationWishes {
  return Object.fromEntries(Object.entries(wish).filter(([, value]) => value !== undefined));
}

/** A port, 0 to 65535. `where` is where it was written: `--web`, `SETSIDE_WEB`. Throws `bad-option`. */
export function parsePort(text: string, where: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : Number.NaN;
  if (port >= 0 && port <= 65_535) return port;
  throw badOption(where, `a port from 0 to 65535`, text);
}

/** `50000-50099`, both ends included and above 1023. Throws `bad-option`. */
export function parsePortRange(text: string, where: string): PortRange {
  const match = /^(\d{1,5})-(\d{1,5})$/.exec(text);
  const from = Number(match?.[1]);
  const to = Number(match?.[2]);
  if (match !== null && from > 1023 && to >= from && to <= 65_535) return { from, to };
  throw badOption(where, 'two ports such as 50000-50099, above 1023, the lower first', text);
}

/** `cam1=/media/card`: the camera's name, then the folder. Throws `bad-option`. */
export function parseWatch(text: string, where: string): WatchWish {
  const match = /^([^=]+)=(.+)$/.exec(text);
  const [, camera, folder] = match ?? [];
  if (camera === undefined || folder === undefined) {
    throw badOption(where, 'a camera and a folder such as cam1=/media/card', text);
  }
  if (cameraNamePattern.test(camera)) return { camera, folder };
  throw badOption(
    where,
    `a camera's name (1 to 40 letters from a to z, digits and hyphens) before the =`,
    camera,
  );
}

/** `1.2` or `1.3`; older versions are forbidden (RFC 8996). Throws `bad-option`. */
export function parseTlsVersion(text: string, where: string): FtpsWish['minVersion'] {
  if (text === '1.2') return 'TLSv1.2';
  if (text === '1.3') return 'TLSv1.3';
  throw badOption(where, '1.2 or 1.3', text);
}

export function badOption(where: string, expected: string, got: string): SetsideError {
  return new SetsideError('bad-option', `${where}: expected ${expected}, got "${got}"`, {
    details: { option: where },
    cure: 'Run setside station --help for what each option takes.',
  });
}
