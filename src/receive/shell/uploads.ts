import { setTimeout as sleep } from 'node:timers/promises';
import type { ArrivalEnd } from '../core/camera-folder.ts';

/** What the uploads of one door have in common, whatever carries their bytes. */
export interface RunningUpload {
  /** How long nothing has come. */
  readonly silentMs: number;
  /** Ends it from our side. */
  interrupt(end: ArrivalEnd): void;
}

interface Upload {
  readonly reception: RunningUpload;
  /** Settles once the folder has finished the file. */
  readonly over: Promise<void>;
}

/**
 * The uploads that run at one door, by camera and path: so that a file sent again after a lost link does not wait for
 * the first connection to be found dead.
 */
export class Uploads {
  readonly #running = new Map<string, Upload>();

  /** Notes an upload; call what comes back once the folder has finished it. */
  begin(camera: string, path: string, reception: RunningUpload): () => void {
    const key = keyOf(camera, path);
    let end: () => void = () => {};
    const over = new Promise<void>((resolve) => {
      end = resolve;
    });
    const upload = { reception, over };
    this.#running.set(key, upload);
    return () => {
      if (this.#running.get(key) === upload) this.#running.delete(key);
      end();
    };
  }

  /**
   * Makes way for the same file: waits until the running upload of it is over or has been silent for `silentMs`, and
   * then ends it as stalled. False where it is alive, or where none is known here.
   */
  async makeWay(camera: string, path: string, silentMs: number): Promise<boolean> {
    const upload = this.#running.get(keyOf(camera, path));
    if (upload === undefined) return false;
    const { reception, over } = upload;
    const patience = new AbortController();
    const left = Math.max(0, silentMs - reception.silentMs);
    const waited = sleep(left, false, { signal: patience.signal }).catch(() => true);
    const isOver = await Promise.race([waited, over.then(() => true)]);
    patience.abort();
    if (isOver) return true;
    // A byte that came meanwhile proves the line alive. Timers may ring a millisecond or two early.
    if (reception.silentMs < silentMs - 2) return false;
    reception.interrupt('stalled');
    await over;
    return true;
  }
}

function keyOf(camera: string, path: string): string {
  return `${camera}\n${path}`;
}
