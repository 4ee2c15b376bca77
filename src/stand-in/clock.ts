import type { EpochMs } from '../base/index.ts';
import type { ExifTime } from './core/capture.ts';

/** The camera's clock is set to this computer's zone, as a careful photographer sets it. */
export function exifTimeAt(moment: EpochMs): ExifTime {
  const date = new Date(moment);
  return {
    local: {
      year: date.getFullYear(),
      month: date.getMonth() + 1,
      day: date.getDate(),
      hours: date.getHours(),
      minutes: date.getMinutes(),
      seconds: date.getSeconds(),
      ms: date.getMilliseconds(),
    },
    offsetMinutes: -date.getTimezoneOffset(),
  };
}
