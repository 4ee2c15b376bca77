import { lengthMsOf, type Tone, type TonePattern } from './tones.ts';

/** Rise and fall of each tone: shorter clicks, longer blurs the rhythm. */
const rampMs = 12;
/** A second partial, an octave up, carries the tone through a small loudspeaker and a noisy room. */
const secondPartial = 0.25;

/**
 * A pattern as mono samples, -1 … 1, at `sampleRate` (hertz). Phase is carried through a glide, so that nothing clicks; the
 * pitch moves by equal steps of the musical scale in equal times.
 */
export function renderTones(pattern: TonePattern, sampleRate: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.ceil((lengthMsOf(pattern) / 1000) * sampleRate));
  for (const tone of pattern) addTone(samples, tone, sampleRate);
  return samples;
}

function addTone(
  samples: Float32Array,
  { atMs, lastsMs, hertz, toHertz, level }: Tone,
  sampleRate: number,
): void {
  const from = Math.round((atMs / 1000) * sampleRate);
  const count = Math.round((lastsMs / 1000) * sampleRate);
  const ramp = Math.max(1, Math.min(count / 2, (rampMs / 1000) * sampleRate));
  const peak = level / (1 + secondPartial);
  let phase = 0;
  for (let index = 0; index < count && from + index < samples.length; index += 1) {
    const edge = Math.min(1, Math.min(index, count - 1 - index) / ramp);
    // Half a cosine: smooth at both of its ends.
    const gain = (1 - Math.cos(Math.PI * edge)) / 2;
    const wave = Math.sin(phase) + secondPartial * Math.sin(2 * phase);
    samples[from + index] = (samples[from + index] ?? 0) + peak * gain * wave;
    phase += (2 * Math.PI * hertz * (toHertz / hertz) ** (index / count)) / sampleRate;
  }
}
