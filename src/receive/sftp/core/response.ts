import type { EpochMs } from '../../../base/index.ts';
import type { FolderEntry } from '../../core/camera-folder.ts';
import { listLine } from '../../core/list-line.ts';
import { textToBytes } from '../../core/name-bytes.ts';
import { writeAttributes } from './attributes.ts';
import type { SftpLimits } from './limits.ts';
import { handleBytes } from './request.ts';
import type { Status } from './status.ts';
import { WireWriter } from './wire.ts';

/** What the session says to one request. */
export type Response =
  | Status
  | { readonly kind: 'handle'; readonly handle: number }
  | { readonly kind: 'names'; readonly entries: readonly FolderEntry[] }
  | { readonly kind: 'real-path'; readonly path: string }
  | { readonly kind: 'attributes'; readonly entry: FolderEntry }
  | { readonly kind: 'limits'; readonly limits: SftpLimits };

/** A response as bytes (draft-ietf-secsh-filexfer-02 section 7). `nowMs` is for the dates of `ls -l`. */
export function encodeResponse(id: number, response: Response, nowMs: EpochMs): Uint8Array {
  switch (response.kind) {
    case 'status':
      return new WireWriter(101).uint32(id).uint32(response.code).text(response.words).text('en').packet();
    case 'handle':
      return new WireWriter(102).uint32(id).string(handleBytes(response.handle)).packet();
    case 'names':
      return encodeNames(id, response.entries, nowMs);
    case 'real-path':
      return encodePath(id, response.path);
    case 'attributes': {
      const writer = new WireWriter(105).uint32(id);
      writeAttributes(writer, response.entry);
      return writer.packet();
    }
    case 'limits':
      return encodeLimits(id, response.limits);
  }
}

/** VERSION: ours is 3, whatever the client speaks beyond it, with the extensions of OpenSSH that are built. */
export function encodeVersion(): Uint8Array {
  return new WireWriter(2)
    .uint32(3)
    .text('posix-rename@openssh.com')
    .text('1')
    .text('fsync@openssh.com')
    .text('1')
    .text('limits@openssh.com')
    .text('1')
    .packet();
}

/** Bytes of a WRITE beside those of the file: what OpenSSH itself allows for. */
const writeOverheadBytes = 1024;

/** OpenSSH's PROTOCOL file, section 4.8: packet, read, write, handles; a read of 0 says no more than any other. */
function encodeLimits(id: number, { packetBytesMax, handlesMax }: SftpLimits): Uint8Array {
  return new WireWriter(201)
    .uint32(id)
    .uint64(packetBytesMax)
    .uint64(0)
    .uint64(packetBytesMax - writeOverheadBytes)
    .uint64(handlesMax)
    .packet();
}

function encodeNames(id: number, entries: readonly FolderEntry[], nowMs: EpochMs): Uint8Array {
  const writer = new WireWriter(104).uint32(id).uint32(entries.length);
  for (const entry of entries) {
    writer.string(textToBytes(entry.name)).string(textToBytes(listLine(entry, nowMs)));
    writeAttributes(writer, entry);
  }
  return writer.packet();
}

/** REALPATH: one name, and attributes that say nothing (section 6.11). */
function encodePath(id: number, path: string): Uint8Array {
  const name = textToBytes(path);
  return new WireWriter(104).uint32(id).uint32(1).string(name).string(name).uint32(0).packet();
}
