/** What to do where originals are not as they came. It holds before that command was run and after: what it says is the way back. */
export function keepCardAndSee(several: boolean): string {
  const them = several ? 'them' : 'it';
  return `Keep the card. To see which second place holds ${them} and how to put ${them} back, run: setside verify.`;
}
