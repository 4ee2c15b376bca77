import type { EpochMs } from '../../base/index.ts';
import { baseName, parentPath } from './folder-tree.ts';
import { foldName, splitName } from './safe-name.ts';

/**
 * How long a raw waits for its JPEG, ms. They come right after each other (common practice, no source), but a lost
 * link and a video between them may take minutes; a counter that comes round again takes hours.
 */
export const pairingWindowMs = 600_000;

interface Open {
  frame: string;
  readonly extensions: Set<string>;
  readonly firstMs: EpochMs;
}

/**
 * Finds the files of one press of the shutter: same camera, folder and stem, another extension, close in time. Words about a picture
 * (its XMP sidecar) come when somebody has written them, in the evening or again the day after: they join the newest picture of
 * their name, however late.
 */
export class FramePairing {
  readonly #open = new Map<string, Open>();
  /** The newest frame with a picture of each name. */
  readonly #pictures = new Map<string, string>();

  /** The frame that a file of this name joins, or null where it begins one. */
  find(camera: string, path: string, nowMs: EpochMs): string | null {
    const key = keyOf(camera, path);
    const open = this.#open.get(key);
    const isOpen = open !== undefined && isNear(open, nowMs);
    if (isSidecar(path)) return (isOpen ? open.frame : this.#pictures.get(key)) ?? null;
    if (!isOpen) return null;
    return open.extensions.has(extensionOf(path)) ? null : open.frame;
  }

  /** Notes that a file of this name belongs to a frame. */
  note(camera: string, path: string, frame: string, atMs: EpochMs): void {
    this.#forgetOld(atMs);
    const key = keyOf(camera, path);
    if (!isSidecar(path)) this.#pictures.set(key, frame);
    const open = this.#open.get(key);
    if (open?.frame === frame) {
      open.extensions.add(extensionOf(path));
      return;
    }
    this.#open.delete(key);
    this.#open.set(key, { frame, extensions: new Set([extensionOf(path)]), firstMs: atMs });
  }

  /** A frame turned out to be another one: what still comes joins that one. */
  redirect(camera: string, path: string, from: string, to: string): void {
    const key = keyOf(camera, path);
    const open = this.#open.get(key);
    if (open?.frame === from) open.frame = to;
    if (this.#pictures.get(key) === from) this.#pictures.set(key, to);
  }

  /** Oldest first is insertion order, so this stops at the first that is young enough. */
  #forgetOld(nowMs: EpochMs): void {
    for (const [key, open] of this.#open) {
      if (isNear(open, nowMs)) return;
      this.#open.delete(key);
    }
  }
}

/** Before or after: a clock that was wrong and is put right leaves what it wrote in the future. */
function isNear({ firstMs }: Open, nowMs: EpochMs): boolean {
  return Math.abs(nowMs - firstMs) <= pairingWindowMs;
}

/** Whether two files may be raw and JPEG of one press of the shutter, by their names alone. */
export function isPartner(one: string, other: string): boolean {
  return keyOf('', one) === keyOf('', other) && extensionOf(one) !== extensionOf(other);
}

const isSidecar = (path: string): boolean => extensionOf(path) === foldName('.xmp');

const extensionOf = (path: string): string => foldName(splitName(baseName(path)).extension);

function keyOf(camera: string, path: string): string {
  return `${camera}\n${parentPath(path)}\n${foldName(splitName(baseName(path)).stem)}`;
}
