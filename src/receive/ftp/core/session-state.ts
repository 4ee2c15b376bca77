import type { FtpLimits } from './limits.ts';
import type { TlsPolicy } from './tls-policy.ts';

/** What one session remembers between commands. Commands change it; nothing outside the session does. */
export interface SessionState {
  /** Address of the client and the one it reached us by, IPv4 in dotted form. */
  readonly peerAddress: string;
  readonly localAddress: string;
  /** The user of the last USER, until a PASS answers it. */
  user: string | null;
  /** Name of the camera once logged in. */
  camera: string | null;
  cwd: string;
  /** What CWD asked for in vain, and why, until a folder is made or a file comes all the same. */
  missedFolder: { readonly name: string; readonly why: 'no-folder' | 'not-a-folder' } | null;
  loginFailures: number;
  /** `EPSV ALL` was said: other ways to a data connection are refused, RFC 2428 section 4. */
  epsvOnly: boolean;
  /** `aimed`: active mode, the client will be dialled. */
  dataWay: 'none' | 'listening' | 'aimed' | 'connected';
  /** What the control connection runs over. */
  channel: 'clear' | 'tls';
  /** PBSZ was said, which RFC 2228 asks for before PROT. */
  bufferAgreed: boolean;
  /** The data channel protection level, RFC 4217 section 9: C or P. */
  protection: 'clear' | 'private';
  /** ALLO, for the next STOR or APPE. */
  announcedBytes: number | null;
  /** MLSx facts the client wants, RFC 3659 section 7.9. */
  facts: readonly FactName[];
  carry: Carry | null;
}

/** What one command leaves for the one that follows: RFC 959 section 4.1.3 asks that it follows directly. */
export type Carry =
  | { readonly kind: 'restart'; readonly offsetBytes: number }
  | { readonly kind: 'rename'; readonly from: string };

export const factNames = ['type', 'size', 'modify'] as const;
export type FactName = (typeof factNames)[number];

/** TLS from the first byte brings protected data with it (common practice, no source: no RFC knows that port). */
export function freshState({ peerAddress, localAddress, tls }: Omit<SessionSetting, 'limits'>): SessionState {
  const implicit = tls?.start === 'implicit';
  return {
    peerAddress,
    localAddress,
    user: null,
    camera: null,
    cwd: '/',
    missedFolder: null,
    loginFailures: 0,
    epsvOnly: false,
    dataWay: 'none',
    channel: implicit ? 'tls' : 'clear',
    bufferAgreed: implicit,
    protection: implicit ? 'private' : 'clear',
    announcedBytes: null,
    facts: factNames,
    carry: null,
  };
}

/** What is given to a session and never changes. */
export interface SessionSetting {
  readonly limits: FtpLimits;
  readonly peerAddress: string;
  readonly localAddress: string;
  /** Null where the door knows no TLS. */
  readonly tls: TlsPolicy | null;
}
