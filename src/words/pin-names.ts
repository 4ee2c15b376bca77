/**
 * What stands on the pins of a frame: numbers on what guests see, so that both sides speak of the same one, and letters on
 * what is not for them.
 */
export function pinNames(
  remarks: readonly { readonly id: string; readonly inside: boolean }[],
): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  let shown = 0;
  let inside = 0;
  for (const remark of remarks) {
    if (remark.inside) {
      names.set(remark.id, letters(inside));
      inside += 1;
    } else {
      shown += 1;
      names.set(remark.id, String(shown));
    }
  }
  return names;
}

/** a … z, aa, ab … */
function letters(index: number): string {
  const last = String.fromCharCode(97 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}
