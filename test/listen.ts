import type { Page } from 'playwright-core';

/**
 * Notes what is handed to the loudspeaker, in order (and to what vibrates): patterns by how many tones they have, texts as they are. Texts end
 * when the test says so; a voice is there although this browser has none.
 */
export function listen(): void {
  const heard: string[] = [];
  const ends: (() => void)[] = [];
  const felt: unknown[] = [];
  Object.defineProperty(navigator, 'vibrate', { value: (pattern: unknown) => felt.push(pattern) > 0 });
  Object.assign(window, { heard, felt, endText: () => ends.shift()?.() });
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (...args) {
    heard.push(`${countTones(this.buffer?.getChannelData(0) ?? new Float32Array())} tones`);
    start.apply(this, args);
  };
  const voice = { lang: 'en-GB', localService: true, default: true, name: 'test', voiceURI: 'test' };
  Object.defineProperty(window, 'SpeechSynthesisUtterance', {
    value: class {
      readonly text: string;
      onend: (() => void) | null = null;
      constructor(text: string) {
        this.text = text;
      }
    },
  });
  const synthesis = {
    getVoices: () => [voice],
    speak(words: { text: string; onend: (() => void) | null }) {
      heard.push(words.text);
      ends.push(() => words.onend?.());
    },
    cancel() {
      for (const end of ends.splice(0)) end();
    },
    addEventListener() {},
    removeEventListener() {},
  };
  Object.defineProperty(window, 'speechSynthesis', { value: synthesis });

  function countTones(samples: Float32Array): number {
    let [count, last] = [0, -1e6];
    samples.forEach((sample, index) => {
      if (Math.abs(sample) < 0.01) return;
      if (index - last > 900) count += 1;
      last = index;
    });
    return count;
  }
}

/** What was heard so far. */
export const heard = (page: Page): Promise<string[]> => page.evaluate(() => Reflect.get(window, 'heard'));
/** Lets the text that is being said end. */
export const endText = (page: Page): Promise<void> => page.evaluate(() => Reflect.get(window, 'endText')());

/** Patterns that the phone vibrated by, ms on and off in turn. */
export const felt = (page: Page): Promise<number[][]> => page.evaluate(() => Reflect.get(window, 'felt'));
