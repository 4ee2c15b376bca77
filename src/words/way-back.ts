/** What to do where originals are not as they came. */
export function keepCardAndSee(several: boolean): string {
  const them = several ? 'them' : 'it';
  return `Keep the card. Put ${them} back from a second place on the Hand-over page, or run: setside restore.`;
}
