import { renderTones } from './render-tones.ts';
import { lengthMsOf, type TonePattern } from './tones.ts';

/**
 * Plays patterns, one at a time. A browser lets nothing sound before somebody has touched the page, so the context is made
 * at the first touch, and {@link isReady} says whether there was one.
 */
export class TonePlayer {
  #context: AudioContext | null = null;
  #playing: AudioBufferSourceNode | null = null;

  get isReady(): boolean {
    return this.#context?.state === 'running';
  }

  /** To be called from a touch or a key; resolves when it can sound, or cannot. */
  async unlock(): Promise<void> {
    if (typeof AudioContext === 'undefined') return;
    this.#context ??= new AudioContext();
    // A refusal is no error: the next touch tries again.
    await this.#context.resume().catch(() => undefined);
  }

  /** Stops what sounds and plays this; resolves when it has ended, or at once where nothing can sound. */
  async play(pattern: TonePattern, volume: number): Promise<void> {
    this.stop();
    const context = this.#context;
    if (context === null || context.state !== 'running' || lengthMsOf(pattern) === 0) return;
    const samples = renderTones(pattern, context.sampleRate);
    const buffer = context.createBuffer(1, samples.length, context.sampleRate);
    buffer.copyToChannel(samples, 0);
    const source = new AudioBufferSourceNode(context, { buffer });
    // Loudness is heard by powers: the square makes the slider's middle half as loud.
    source.connect(new GainNode(context, { gain: volume ** 2 })).connect(context.destination);
    this.#playing = source;
    await new Promise<void>((resolve) => {
      source.onended = () => resolve();
      source.start();
    });
  }

  stop(): void {
    this.#playing?.stop();
    this.#playing = null;
  }

  close(): void {
    this.stop();
    void this.#context?.close();
    this.#context = null;
  }
}
