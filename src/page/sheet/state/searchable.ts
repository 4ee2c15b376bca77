/** Text as it is looked for: without accents, great letters as small ones, and the Greek sigma at a word's end as any other. */
export function searchable(text: string): string {
  const small = text.toLowerCase();
  // Nearly every name is plain, and there are thousands.
  if (/^[ -~\s]*$/.test(small)) return small;
  return small.normalize('NFD').replace(/\p{M}/gu, '').replaceAll('ς', 'σ');
}
