import type { Frame } from '../../contract/index.ts';

/** How a frame was taken, as it is written on a slate: `1/125 s  f/8  ISO 100  85 mm`; what is not known is left out. */
export function exposureLine(capture: Frame['capture']): string {
  const parts = [
    capture.exposureTimeS === null ? '' : timePhrase(capture.exposureTimeS),
    capture.fNumber === null ? '' : `f/${trimmed(capture.fNumber)}`,
    capture.sensitivity === null ? '' : `ISO ${trimmed(capture.sensitivity)}`,
    capture.focalLengthMm === null ? '' : `${trimmed(capture.focalLengthMm)} mm`,
  ];
  return parts.filter((part) => part !== '').join('  ');
}

/** Below three tenths as a fraction, as shutters are marked (ISO 2720 spells the series so; from memory). */
function timePhrase(seconds: number): string {
  return seconds < 0.3 ? `1/${Math.round(1 / seconds)} s` : `${trimmed(seconds)} s`;
}

function trimmed(value: number): string {
  return String(Math.round(value * 10) / 10);
}
