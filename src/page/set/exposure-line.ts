import type { Frame } from '../../contract/index.ts';
import { aperturePhrase, exposureTimePhrase } from '../../words/index.ts';

/** How a frame was taken, as it is written on a slate: `1/125 s  f/8  ISO 100  85 mm`; what is not known is left out. */
export function exposureLine(capture: Frame['capture']): string {
  const parts = [
    capture.exposureTimeS === null ? '' : exposureTimePhrase(capture.exposureTimeS),
    capture.fNumber === null ? '' : aperturePhrase(capture.fNumber),
    capture.sensitivity === null ? '' : `ISO ${trimmed(capture.sensitivity)}`,
    capture.focalLengthMm === null ? '' : `${trimmed(capture.focalLengthMm)} mm`,
  ];
  return parts.filter((part) => part !== '').join('  ');
}

function trimmed(value: number): string {
  return String(Math.round(value * 10) / 10);
}
