import type { Finding } from '../facts/index.ts';

export type Args = Finding['args'];
export type SentenceTable = Readonly<Record<string, (args: Args) => string>>;

/**
 * A size in the unit a person would say it in, decimal as disks and cards are sold (kB, MB, GB). The unit is that of the
 * rounded figure: 999 999 bytes are 1.0 MB, not 1000 kB.
 */
export function sizePhrase(bytes: number): string {
  if (bytes < 1000) return bytes === 1 ? '1 byte' : `${bytes} bytes`;
  if (bytes < 999_500) return `${Math.round(bytes / 1e3)} kB`;
  if (bytes < 999_950_000) return `${(bytes / 1e6).toFixed(1)} MB`;
  return `${(bytes / 1e9).toFixed(1)} GB`;
}

/**
 * A share in whole per cent, rounded down: `41 %`. What is there is never said to be nothing (`under 1 %`), and what is
 * missing never to be all.
 */
export function sharePhrase(part: number, whole: number): string {
  const percent = whole > 0 ? Math.floor((part / whole) * 100) : 0;
  return percent < 1 && part > 0 ? 'under 1 %' : `${percent} %`;
}

/** A duration, rounded before it is parted: `under 0.1 s`, `0.8 s`, `12 s`, `3 min 20 s`. */
export function durationPhrase(ms: number): string {
  if (ms > 0 && ms < 50) return 'under 0.1 s';
  if (ms < 9950) return `${(ms / 1000).toFixed(1)} s`;
  const seconds = Math.round(ms / 1000);
  return seconds < 60 ? `${seconds} s` : `${Math.floor(seconds / 60)} min ${seconds % 60} s`;
}

/** A rounded length of time where nothing happened: `40 s`, `12 min`, `1 h 5 min`, `2 days`. */
export function spanPhrase(ms: number): string {
  const seconds = Math.round(ms / 1000);
  if (seconds < 120) return `${seconds} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 48 * 60)
    return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
  return `${Math.round(minutes / 1440)} days`;
}

/**
 * A figure with its unit, in as many digits as can be read in passing: `4.1 px`, `−0.03 EV`, `128 px`, `2°`. A size in MB is said
 * as {@link sizePhrase} says it everywhere else.
 */
export function figurePhrase(value: number, unit: string): string {
  if (unit === 'MB') return sizePhrase(Math.round(value * 1e6));
  // Its limits are thousandths.
  if (unit === 'Duv') return `${withMinus(value, 4)} Duv`;
  const size = Math.abs(value);
  const digits = size >= 99.95 ? 0 : size >= 0.995 || size === 0 ? 1 : 2;
  const text = withMinus(value, digits).replace(/\.0$/, '');
  if (unit === '°') return `${text}°`;
  return unit === '' ? text : `${text} ${unit}`;
}

/** A minus is as wide as a plus (U+2212); what rounds to nothing has none. */
function withMinus(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/**
 * How large a picture is shown: `1:1`, `2:1` where each pixel is one or four of the screen's, else the share of its size
 * in per cent, `43 %`.
 */
export function scalePhrase(scale: number): string {
  const whole = Math.round(scale);
  if (whole >= 1 && Math.abs(scale / whole - 1) < 0.004) return `${whole}:1`;
  return scale < 0.095 ? `${(scale * 100).toFixed(1)} %` : `${Math.round(scale * 100)} %`;
}

/**
 * An exposure time as it is written on a slate: `1/125 s`, `0.5 s`. Below three tenths as a fraction, as shutters are marked
 * (ISO 2720 spells the series so; from memory).
 */
export function exposureTimePhrase(seconds: number): string {
  return seconds > 0 && seconds < 0.3
    ? `1/${Math.round(1 / seconds)} s`
    : `${Math.round(seconds * 10) / 10} s`;
}

/** An aperture: `f/8`, `f/5.6`. */
export function aperturePhrase(fNumber: number): string {
  return `f/${Math.round(fNumber * 10) / 10}`;
}

/** Frames taken in one gesture: `10 in 0.9 s`; of one and the same moment, `5 at once`. */
export function burstPhrase(count: number, ms: number): string {
  return ms > 0 ? `${count} in ${durationPhrase(ms)}` : `${count} at once`;
}

/** A number out of args; 0 where it is missing, so that a sentence never shows `undefined`. */
export function numberArg(args: Args, name: string): number {
  const value = args[name];
  return typeof value === 'number' ? value : 0;
}

export function textArg(args: Args, name: string): string {
  const value = args[name];
  return value === undefined ? '' : String(value);
}

/** Whether a finding stands for several of its code (`mergeFindings`). */
export function isSeveral(args: Args): boolean {
  return numberArg(args, 'merged') > 1;
}

/** A file's name as people say it: the extension is the same all day long. */
export function withoutExtension(name: string): string {
  return name.replace(/(?<=.)\.[^.]{1,5}$/, '');
}
