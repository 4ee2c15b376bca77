import type { FolderErrorCode } from '../../core/camera-folder.ts';
import { textToBytes } from '../../core/name-bytes.ts';
import type { NameTrouble } from '../../core/path.ts';

/**
 * One reply of the server, RFC 959 section 4.2. The first line is said with the code; inner lines and a last line
 * make it a multi-line reply.
 */
export interface Reply {
  readonly code: number;
  readonly text: string;
  /** Lines between the first and the last; each is sent with one blank in front, so that none reads as a code. */
  readonly inner?: readonly string[];
  readonly last?: string;
  /** Why a command was refused, as a code for the camera's log; never sent. */
  readonly why?: RefusalCode;
}

export type RefusalCode = FolderErrorCode | NameTrouble | 'no-name' | 'no-folder';

export function reply(code: number, text: string): Reply {
  return { code, text };
}

/** The bytes of a reply: lines end in CR LF, control characters become `?`, a 0xFF byte is doubled (RFC 854 IAC). */
export function formatReply({ code, text, inner, last }: Reply): Uint8Array {
  const lines =
    inner === undefined
      ? [`${code} ${text}`]
      : [`${code}-${text}`, ...inner.map((line) => ` ${line}`), `${code} ${last ?? 'End'}`];
  return escapeIac(textToBytes(lines.map((line) => `${printable(line)}\r\n`).join('')));
}

/** A path as RFC 959 appendix II quotes it: in double quotes, a double quote inside it doubled. */
export function quotePath(path: string): string {
  return `"${path.replaceAll('"', '""')}"`;
}

function printable(line: string): string {
  return line.replace(/\p{Cc}/gu, '?');
}

function escapeIac(bytes: Uint8Array): Uint8Array {
  const iac = 0xff;
  return bytes.includes(iac)
    ? Uint8Array.from([...bytes].flatMap((byte) => (byte === iac ? [iac, iac] : [byte])))
    : bytes;
}
