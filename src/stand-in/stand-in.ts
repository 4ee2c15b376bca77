/** A session with the pretend camera, or with several: shoot the plan, send each frame while the next is made. */
import { setMaxListeners } from 'node:events';
import { runCamera } from './camera-session.ts';
import { cameraBody } from './core/camera-body.ts';
import { frameSize } from './core/frame-size.ts';
import { createRenderCrew } from './render-crew.ts';
import { createRenderingStore } from './rendering-store.ts';
import type { SentFrame } from './sent-frame.ts';
import { resolveOptions, type StandInOptions } from './stand-in-options.ts';
import { Studio } from './studio.ts';

export interface StandInSummary {
  /** Camera by camera. */
  readonly frames: readonly SentFrame[];
}

/**
 * Shoots and sends the planned frames. Settles when the last is acknowledged or given up (`sent: false`). Rejects
 * `stand-in-unreachable` or `stand-in-refused` where no connection can be made, `stand-in-wrong-option`, or with the
 * signal's reason, promptly. The first camera that fails stops the others.
 */
export async function runStandIn(wishes: StandInOptions): Promise<StandInSummary> {
  const options = resolveOptions(wishes);
  const failed = new AbortController();
  const signal = AbortSignal.any([options.signal, failed.signal]);
  // Frames of a burst wait on it all at once, each with a listener: many of them are no leak.
  setMaxListeners(0, signal);
  const size = frameSize(options.sizeMegapixels);
  const crew = createRenderCrew(wishes.threads);
  const store = createRenderingStore(options.cacheDir);
  const studio = new Studio({ ...options, signal, crew, size, store });
  const stop = (): void => void crew.close();
  signal.addEventListener('abort', stop, { once: true });
  try {
    const sessions = Array.from({ length: options.cameras }, (_, index) => {
      const session = runCamera({ ...options, signal }, studio, size, cameraBody(index + 1));
      session.catch((failure: unknown) => failed.abort(failure));
      return session;
    });
    const frames = (await Promise.all(sessions)).flat();
    await studio.settle();
    options.onProgress({ code: 'stand-in.done', args: { frames: frames.length } });
    return { frames };
  } catch (failure) {
    signal.throwIfAborted();
    throw failure;
  } finally {
    signal.removeEventListener('abort', stop);
    await crew.close();
  }
}
