import type { EpochMs } from '../../base/index.ts';
import type { CaptureFacts } from '../../facts/index.ts';
import { type ClockOffset, clockOffsetInForce } from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';

/** How wrong each camera's clock goes, as far as anybody has said: what shutter times are corrected by. */
export class CameraClocks {
  readonly #byCamera = new Map<string, readonly ClockOffset[]>();

  /** Takes what was said of a camera so far. */
  load(camera: string, history: readonly ClockOffset[]): void {
    this.#byCamera.set(camera, history);
  }

  said(camera: string, offset: ClockOffset): void {
    this.#byCamera.set(camera, [...(this.#byCamera.get(camera) ?? []), offset]);
  }

  /** Whether anybody ever said how it goes. */
  isSaid(camera: string): boolean {
    return (this.#byCamera.get(camera) ?? []).length > 0;
  }

  /** To be added to the camera's own time for frames that arrive then, ms. */
  offsetMs(camera: string, arrivedMs: EpochMs): number {
    return clockOffsetInForce(this.#byCamera.get(camera) ?? [], arrivedMs);
  }

  /** The shutter time that is believed, or null where the camera told none. */
  shutterMs(capture: CaptureFacts | null, camera: string, arrivedMs: EpochMs): EpochMs | null {
    return capture?.shutter === undefined ? null : capture.shutter.atMs + this.offsetMs(camera, arrivedMs);
  }
}

/** When a frame began to arrive, as far as the journal says; `nowMs` while that is going on. */
export function arrivalOf({ times }: Pick<FrameRow, 'times'>, nowMs: EpochMs): EpochMs {
  return times.firstByteMs ?? times.keptMs ?? nowMs;
}

/** Puts the frames of a camera to the places that its clock, as now believed, gives them. */
export async function retimeFrames(book: FrameBook, clocks: CameraClocks, camera: string): Promise<void> {
  const moved: { readonly id: string; readonly shutterMs: EpochMs }[] = [];
  // Gathered first: a frame that is moved while pages are read might be met twice, or not at all.
  for await (const row of book.everyRow({ camera })) {
    const shutterMs = clocks.shutterMs(row.capture, camera, arrivalOf(row, Number.POSITIVE_INFINITY));
    if (shutterMs !== null && shutterMs !== row.shutterMs) moved.push({ id: row.id, shutterMs });
  }
  for (const { id, shutterMs } of moved) await book.note(id, { shutterMs });
}
