import type { Finding } from '../../facts/index.ts';

/** What a camera does one after another until a frame is kept. */
export const rehearsalSteps = ['reach', 'greet', 'secure', 'log-in', 'data', 'send'] as const;
export type RehearsalStep = (typeof rehearsalSteps)[number];

/** What went wrong, as plain data: the system's code (`ECONNREFUSED`), or the station's reply (530), or words. */
export interface StepFailure {
  readonly systemCode: string | null;
  readonly reply: number | null;
  readonly message: string;
}

export interface Tried {
  readonly host: string;
  readonly port: number;
  readonly protocol: 'ftp' | 'sftp';
  readonly secure: 'no' | 'explicit' | 'implicit';
  /** The address is one of a network that this computer is in. */
  readonly near: boolean;
}

/** The code of a host key that is none of those of the camera sheet; its message is the fingerprint that was shown. */
export const otherHostKey = 'OTHER_HOST_KEY';

/** Nothing answers: packets are dropped on the way, or the address is nobody's. */
const silent: ReadonlySet<string> = new Set(['ETIMEDOUT', 'EHOSTDOWN', 'ETIME']);
const noWay: ReadonlySet<string> = new Set(['EHOSTUNREACH', 'ENETUNREACH', 'EADDRNOTAVAIL']);
const noName: ReadonlySet<string> = new Set(['ENOTFOUND', 'EAI_AGAIN', 'EAI_NONAME']);
/** What OpenSSL and Node call a certificate that nobody here vouches for, or that is not valid now. */
const untrusted: ReadonlySet<string> = new Set([
  'SELF_SIGNED_CERT_IN_CHAIN',
  'DEPTH_ZERO_SELF_SIGNED_CERT',
  'UNABLE_TO_VERIFY_LEAF_SIGNATURE',
  'UNABLE_TO_GET_ISSUER_CERT',
  'UNABLE_TO_GET_ISSUER_CERT_LOCALLY',
]);
const notNow: ReadonlySet<string> = new Set(['CERT_HAS_EXPIRED', 'CERT_NOT_YET_VALID']);

/** As the FTP client words it: it hands on no code of the system's. */
const dataShut = /timeout|ECONNREFUSED|EHOSTUNREACH|ENETUNREACH/i;

/** Why a step failed and what to look at, after what was seen of it. */
export function causeOf(step: RehearsalStep, failure: StepFailure, tried: Tried): Finding {
  const { host, port } = tried;
  return { code: `rehearsal.${whyOf(step, failure, tried)}`, args: { host, port, why: failure.message } };
}

function whyOf(step: RehearsalStep, { systemCode, reply, message }: StepFailure, tried: Tried): string {
  const code = systemCode ?? '';
  switch (step) {
    case 'reach':
      if (code === 'ECONNREFUSED') return 'refused';
      if (silent.has(code)) return 'silent';
      if (noWay.has(code)) return tried.near && code === 'EHOSTUNREACH' ? 'nobody-there' : 'no-way';
      if (noName.has(code)) return 'no-name';
      return 'reach-failed';
    case 'greet':
      return reply === 421 ? 'sent-away' : `not-${tried.protocol}`;
    case 'secure':
      if (untrusted.has(code)) return 'untrusted';
      if (notNow.has(code)) return 'not-now';
      if (code === 'ERR_TLS_CERT_ALTNAME_INVALID') return 'other-name';
      if (reply === 500 || reply === 502 || reply === 504 || reply === 534) return 'no-tls';
      return 'tls-failed';
    case 'log-in':
      if (code === otherHostKey) return 'other-host-key';
      return reply === 530 || /authentication/i.test(message) ? 'log-in-refused' : 'log-in-failed';
    case 'data':
      return silent.has(code) || code === 'ECONNREFUSED' || dataShut.test(message)
        ? 'data-shut'
        : 'data-failed';
    case 'send':
      if (reply === 452 || reply === 552) return 'no-room';
      return reply === null ? 'send-broke' : 'send-refused';
  }
}

/** What is different where the rehearsal was tried, so that somebody knows what it has not proved. */
export interface Around {
  /** The address of this computer on the way to the station. */
  readonly local: string;
  /** The station's address as it was reached. */
  readonly remote: string;
  /** The address that the station told in answer to PASV; null where it was not asked. */
  readonly told: string | null;
  /** The host key that was taken without being compared; null where it was, or where there is none. */
  readonly hostKey: string | null;
}

export function differencesOf({ local, remote, told, hostKey }: Around): readonly Finding[] {
  const own = local === remote || remote.startsWith('127.') || remote === '::1';
  return [
    ...(own
      ? [{ code: 'rehearsal.own-computer', args: {} }]
      : [{ code: 'rehearsal.from', args: { local, remote } }]),
    ...(told !== null && told !== remote
      ? [{ code: 'rehearsal.told-elsewhere', args: { told, remote } }]
      : []),
    ...(hostKey === null ? [] : [{ code: 'rehearsal.host-key', args: { hostKey } }]),
  ];
}
