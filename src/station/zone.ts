/** Minutes that this computer's clock is east of UTC now: how a camera's clock is read that names no zone. */
export function zoneOffsetMinutes(): number {
  return -new Date().getTimezoneOffset();
}
