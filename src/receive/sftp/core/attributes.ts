import type { EpochMs } from '../../../base/index.ts';
import type { FolderEntry } from '../../core/camera-folder.ts';
import type { WireReader, WireWriter } from './wire.ts';

/** What a client says of a file (draft-ietf-secsh-filexfer-02 section 5); null where it says nothing. */
export interface Attributes {
  readonly sizeBytes: number | null;
  readonly modifiedMs: EpochMs | null;
}

const flags = { size: 1, owner: 2, permissions: 4, times: 8, extended: 0x8000_0000 } as const;
/** Extended pairs that are passed over; nobody sends any. */
const extendedMax = 32;

/** Owner and permissions are read and forgotten: a view has neither. */
export function readAttributes(reader: WireReader): Attributes {
  const given = reader.uint32();
  const has = (flag: number): boolean => (given & flag) !== 0;
  const sizeBytes = has(flags.size) ? reader.uint64() : null;
  if (has(flags.owner)) reader.uint64();
  if (has(flags.permissions)) reader.uint32();
  let modifiedMs: EpochMs | null = null;
  if (has(flags.times)) {
    reader.uint32();
    modifiedMs = reader.uint32() * 1000;
  }
  if (has(flags.extended)) passExtended(reader);
  return { sizeBytes, modifiedMs };
}

function passExtended(reader: WireReader): void {
  const count = Math.min(reader.uint32(), extendedMax);
  for (let pair = 0; pair < count && !reader.isShort; pair += 1) {
    reader.string();
    reader.string();
  }
}

/** POSIX modes: what `ls -l` shows as -rw-r--r-- and drwxr-xr-x. */
const modes = { file: 0o100_644, folder: 0o040_755 } as const;

/** Size, mode and times; no owner, since the computer's are nobody's business. */
export function writeAttributes(writer: WireWriter, entry: FolderEntry): void {
  const seconds = Math.min(0xffff_ffff, Math.max(0, Math.floor(entry.modifiedMs / 1000)));
  writer
    .uint32(flags.size | flags.permissions | flags.times)
    .uint64(entry.sizeBytes)
    .uint32(modes[entry.kind])
    .uint32(seconds)
    .uint32(seconds);
}
