import { bytesToText } from '../../core/name-bytes.ts';
import { type Attributes, readAttributes } from './attributes.ts';
import { joined, type Packet, parted } from './packet-reader.ts';
import { WireReader } from './wire.ts';

/**
 * What a client asks: the packets of SFTP version 3 (draft-ietf-secsh-filexfer-02 sections 4 to 8, the version every
 * client speaks) and the extensions of OpenSSH (its PROTOCOL file, section 4). A handle that cannot be ours is -1.
 */
export type Request =
  | { readonly type: 'init'; readonly version: number }
  | (PathRequest & { readonly id: number })
  | (HandleRequest & { readonly id: number })
  | { readonly type: 'limits'; readonly id: number }
  | { readonly type: 'unknown'; readonly id: number; readonly name: string }
  | { readonly type: 'malformed'; readonly id: number | null };

export type PathRequest =
  | {
      readonly type: 'open';
      readonly path: string;
      readonly flags: OpenFlags;
      readonly attributes: Attributes;
    }
  | { readonly type: 'stat' | 'list' | 'remove' | 'remove-folder' | 'real-path'; readonly path: string }
  | { readonly type: 'make-folder'; readonly path: string }
  | { readonly type: 'set-stat'; readonly path: string; readonly attributes: Attributes }
  | { readonly type: 'rename'; readonly path: string; readonly to: string; readonly replaces: boolean }
  | { readonly type: 'link'; readonly path: string };

export type HandleRequest =
  | { readonly type: 'close' | 'read' | 'handle-stat' | 'next-names' | 'sync'; readonly handle: number }
  | { readonly type: 'set-handle-stat'; readonly handle: number; readonly attributes: Attributes }
  | WriteRequest;

export interface WriteRequest {
  readonly type: 'write';
  readonly handle: number;
  readonly offsetBytes: number;
  /** Alias the packet. */
  readonly pieces: readonly Uint8Array[];
  readonly sizeBytes: number;
}

export interface OpenFlags {
  readonly writes: boolean;
  readonly appends: boolean;
  readonly creates: boolean;
  readonly truncates: boolean;
  readonly exclusive: boolean;
}

/** WRITE up to its bytes: type, id, handle of at most 256 bytes (section 6.3), offset, length. */
const writeHeadBytesMax = 1 + 4 + 4 + 256 + 8 + 4;
const writeType = 6;

export function parseRequest({ pieces, sizeBytes }: Packet): Request {
  if (pieces[0]?.[0] === writeType) return parseWrite(pieces, sizeBytes);
  const reader = new WireReader(joined(pieces));
  const type = reader.uint8();
  const id = reader.uint32();
  if (reader.isShort) return { type: 'malformed', id: null };
  if (type === 1) return { type: 'init', version: id };
  const request = requestOf(type, reader);
  return reader.isShort ? { type: 'malformed', id } : { ...request, id };
}

/** Only the head of a WRITE is joined, so that the file's own bytes are not copied. */
function parseWrite(pieces: readonly Uint8Array[], sizeBytes: number): Request {
  const reader = new WireReader(joined(parted(pieces, writeHeadBytesMax).before));
  reader.uint8();
  const id = reader.uint32();
  if (reader.isShort) return { type: 'malformed', id: null };
  const handle = handleOf(reader.string());
  const offsetBytes = reader.uint64();
  const dataBytes = reader.uint32();
  if (reader.isShort || dataBytes !== sizeBytes - reader.at) return { type: 'malformed', id };
  return {
    type: 'write',
    id,
    handle,
    offsetBytes,
    pieces: parted(pieces, reader.at).after,
    sizeBytes: dataBytes,
  };
}

type Unnumbered =
  | PathRequest
  | HandleRequest
  | { readonly type: 'limits' }
  | { readonly type: 'unknown'; readonly name: string };

function requestOf(type: number, reader: WireReader): Unnumbered {
  const path = (): string => bytesToText(reader.string());
  const handle = (): number => handleOf(reader.string());
  switch (type) {
    case 3:
      return {
        type: 'open',
        path: path(),
        flags: openFlags(reader.uint32()),
        attributes: readAttributes(reader),
      };
    case 4:
      return { type: 'close', handle: handle() };
    case 5:
      return { type: 'read', handle: handle() };
    case 7: // LSTAT: there are no links, so it is STAT.
    case 17:
      return { type: 'stat', path: path() };
    case 8:
      return { type: 'handle-stat', handle: handle() };
    case 9:
      return { type: 'set-stat', path: path(), attributes: readAttributes(reader) };
    case 10:
      return { type: 'set-handle-stat', handle: handle(), attributes: readAttributes(reader) };
    case 11:
      return { type: 'list', path: path() };
    case 12:
      return { type: 'next-names', handle: handle() };
    case 13:
      return { type: 'remove', path: path() };
    case 14:
      return { type: 'make-folder', path: path() };
    case 15:
      return { type: 'remove-folder', path: path() };
    case 16:
      return { type: 'real-path', path: path() };
    case 18:
      return { type: 'rename', path: path(), to: path(), replaces: false };
    case 19: // READLINK
    case 20: // SYMLINK
      return { type: 'link', path: path() };
    case 200:
      return extended(path(), path, handle);
    default:
      return { type: 'unknown', name: String(type) };
  }
}

function extended(name: string, path: () => string, handle: () => number): Unnumbered {
  switch (name) {
    case 'posix-rename@openssh.com':
      return { type: 'rename', path: path(), to: path(), replaces: true };
    case 'fsync@openssh.com':
      return { type: 'sync', handle: handle() };
    case 'limits@openssh.com':
      return { type: 'limits' };
    case 'hardlink@openssh.com':
      return { type: 'link', path: path() };
    default:
      return { type: 'unknown', name };
  }
}

function openFlags(bits: number): OpenFlags {
  const has = (bit: number): boolean => (bits & bit) !== 0;
  return {
    writes: has(0x02) || has(0x04),
    appends: has(0x04),
    creates: has(0x08),
    truncates: has(0x10),
    exclusive: has(0x20),
  };
}

/** Ours are four bytes, see {@link handleBytes}. */
function handleOf(bytes: Uint8Array): number {
  return bytes.length === 4 ? new DataView(bytes.buffer, bytes.byteOffset, 4).getUint32(0) : -1;
}

export function handleBytes(handle: number): Uint8Array {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, handle);
  return bytes;
}
