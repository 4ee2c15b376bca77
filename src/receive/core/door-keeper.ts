import type { Finding } from '../../facts/index.ts';
import type { CameraFolder } from './camera-folder.ts';

/** Who may come in: declared by receiving, provided by `station`. */
export interface DoorKeeper {
  /**
   * The folder of a camera whose user and password are right and whose address is allowed; null otherwise, with the
   * same delay and no hint which of these it was (RFC 2577 section 7).
   */
  admit(credentials: Credentials): Promise<AdmittedCamera | null>;
}

export interface Credentials {
  readonly user: string;
  readonly password: string;
  /** The peer's address, IPv4 in dotted form also where the socket is dual-stack. */
  readonly address: string;
  /** The door: `ftps` where the log-in came over TLS. */
  readonly via: 'ftp' | 'ftps' | 'sftp';
}

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
