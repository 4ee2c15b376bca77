/** A way in for a camera. */
export type Protocol = (typeof protocols)[number];
export const protocols = ['ftp', 'ftps', 'sftp'] as const;

/** A registered sender and its log-in. The password is kept readable: a person must type it on the camera. */
export interface Camera {
  /** Also its folder's name: letters, digits and hyphens. */
  readonly name: string;
  readonly user: string;
  readonly password: string;
  /** Where it may come from: addresses, networks or hardware addresses as written; empty for everywhere. */
  readonly allow: readonly string[];
  /** Doors it may come in by; none for one that only comes by a watched folder. */
  readonly protocols: readonly Protocol[];
  /** Public keys for SFTP, as in an `authorized_keys` file (sshd(8)). */
  readonly keys: readonly string[];
  /** From one row of its sensor to the next under the electronic shutter, µs; null where nobody said. */
  readonly rowTimeUs: number | null;
  /** It may not come in any more; what it sent stays, and so does its name. */
  readonly ended: boolean;
}

/** What a person may say of a camera: its way in, and what it does not tell of itself. */
export interface CameraAccess {
  readonly allow?: readonly string[];
  readonly protocols?: readonly Protocol[];
  /** Public keys, each as the one line of a `.pub` file; one that is there already is not there twice. */
  readonly addKeys?: readonly string[];
  /** Fingerprints of keys that are to go, as `ssh-keygen -l` prints them. */
  readonly dropKeys?: readonly string[];
  /** Above 0, up to {@link rowTimeUsMax}; null: nobody says any more. */
  readonly rowTimeUs?: number | null;
  readonly ended?: boolean;
  /** A fresh one is made in the place of the old. */
  readonly newPassword?: true;
}

/** Letters, digits and hyphens: it becomes a folder's name on any system. */
export const cameraNamePattern = /^[A-Za-z0-9][A-Za-z0-9-]{0,39}$/;
/** More than any studio has; a bound on what a log-in is compared with. */
export const camerasMax = 200;
/** A sensor is read in some milliseconds to a quarter of a second: µs a row. */
export const rowTimeUsMax = 1000;
export const allowRulesMax = 32;
export const keysMax = 16;

export function isProtocol(text: string): text is Protocol {
  return protocols.some((protocol) => protocol === text);
}

export function isRowTimeUs(us: number): boolean {
  return us > 0 && us <= rowTimeUsMax;
}
