import type { Finding } from '../../facts/index.ts';
import type { CameraFolder } from './camera-folder.ts';

/** Who may come in: declared by receiving, provided by `station`. */
export interface DoorKeeper {
  /**
   * The folder of a camera whose user and password are right and whose address is allowed; null otherwise, with the
   * same delay and no hint which of these it was (RFC 2577 section 7). `told` is null too, and says that the keeper has
   * told the camera's log why, so that the door does not tell it once more.
   */
  admit(credentials: Credentials): Promise<AdmittedCamera | 'told' | null>;
}

/** Who may come in by a public key, where a door takes such. */
export interface KeyKeeper {
  /**
   * The folder of a camera that this key belongs to; null otherwise, with the same delay for any user. The door asks
   * before it has checked that the client holds the private half, and again after.
   */
  admitKey(offer: KeyOffer): Promise<AdmittedCamera | null>;
}

export interface KeyOffer {
  readonly user: string;
  /** The public key as OpenSSH writes it in a file: type and base64 (RFC 4253 section 6.6). */
  readonly key: string;
  readonly address: string;
}

export interface Credentials {
  readonly user: string;
  readonly password: string;
  /** The peer's address, IPv4 in dotted form also where the socket is dual-stack. */
  readonly address: string;
  /** The door: `ftps` where the log-in came over TLS. */
  readonly via: 'ftp' | 'ftps' | 'sftp';
}

/** Why a camera that came in may not stay. */
export type DismissReason = 'ended' | 'new-password' | 'key-dropped';

export interface AdmittedCamera {
  readonly name: string;
  readonly folder: CameraFolder;
}

/**
 * What happened on the line, for the camera's log in plain words (`words` makes the sentences). `camera` is null
 * before a log-in succeeded. Codes begin with `line.`; passwords are never among the args.
 */
export interface LineReport {
  readonly camera: string | null;
  readonly address: string;
  readonly connection: number;
  readonly change: 'connected' | 'logged-in' | 'refused' | 'disconnected' | 'note';
  readonly finding: Finding;
}

export type ReportLine = (report: LineReport) => void;
