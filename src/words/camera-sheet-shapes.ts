import type { Finding } from '../facts/index.ts';
import type { hostKeyNames } from './page-labels.ts';

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

export interface NamedStation extends SheetStation {
  readonly mdns: string | null;
}

export interface SheetAddress {
  readonly address: string;
  readonly family: 'IPv4' | 'IPv6';
  readonly private: boolean;
  readonly beside: boolean;
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
  /** Letter by letter: a page sets it in type of one width, which tells I from l and O from 0. */
  readonly exact: boolean;
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
