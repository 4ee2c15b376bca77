/** Longer than any sentence: some browsers never say that they have ended. */
const sayMsMax = 20_000;

/**
 * An English voice of this computer, or null. One that speaks through a service elsewhere would be sent what happens on the
 * set, and is not used.
 */
export function ownVoice(): SpeechSynthesisVoice | null {
  if (!('speechSynthesis' in window)) return null;
  const voices = speechSynthesis
    .getVoices()
    .filter(({ lang, localService }) => localService && isEnglish(lang));
  return voices.find((voice) => voice.default) ?? voices[0] ?? null;
}

function isEnglish(lang: string): boolean {
  return /^en([-_]|$)/i.test(lang);
}

/** Tells when the browser has found its voices: many do so only some time after the page is there. */
export function onVoices(tell: () => void): () => void {
  if (!('speechSynthesis' in window)) return () => undefined;
  speechSynthesis.addEventListener('voiceschanged', tell);
  return () => speechSynthesis.removeEventListener('voiceschanged', tell);
}

/** Says a text; resolves when it is said, cut short, or cannot be said. */
export function say(text: string, volume: number): Promise<void> {
  const voice = ownVoice();
  if (voice === null) return Promise.resolve();
  hush();
  const words = new SpeechSynthesisUtterance(text);
  words.voice = voice;
  words.lang = voice.lang;
  words.volume = volume;
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, sayMsMax);
    const end = (): void => {
      clearTimeout(timer);
      resolve();
    };
    words.onend = end;
    words.onerror = end;
    speechSynthesis.speak(words);
  });
}

export function hush(): void {
  if ('speechSynthesis' in window) speechSynthesis.cancel();
}
