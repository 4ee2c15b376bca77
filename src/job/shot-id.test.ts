import { expect, test } from 'vitest';
import { newShotId } from './shot-id.ts';

// ICAO Doc 9303 part 3, section 6 gives the spelling of each letter; the words are ours, spelled by hand after its tables.
test.each([
  ['Krüge, groß', 'kruege-gross'],
  ['Öl & Ähren', 'oel-aehren'],
  ['Crème brûlée', 'creme-brulee'],
  ['Œufs à la coque', 'oeufs-a-la-coque'],
  ['Smørrebrød på fat', 'smoerrebroed-paa-fat'],
  ['Piñata', 'pinata'],
  ['Żółty kubek, łyżka', 'zolty-kubek-lyzka'],
  ['Çay bardağı', 'cay-bardagi'],
  ['Þorskur', 'thorskur'],
  ['Чашка и щётка', 'chashka-i-shchetka'],
  // ISO 843:1997, transcription (from memory): accents fall away, ου is ou.
  ['Κύπελλο', 'kypello'],
  ['Μικρό μπολ, θήκη', 'mikro-mpol-thiki'],
  ['Κούπα για ψωμί', 'koupa-gia-psomi'],
  // Composed and decomposed letters are one letter (Unicode 15, section 3.11).
  ['Kru\u0308ge', 'kruege'],
  ['½ loaf, 2× ﬁg', '1-2-loaf-2-fig'],
])('%s is %s', (name, id) => {
  expect(newShotId(name, new Set())).toBe(id);
});

test('letters without a spelling here give a plain id, with what can be spelled where there is something', () => {
  expect(newShotId('茶碗', new Set())).toBe('shot');
  expect(newShotId('茶碗', new Set(['shot']))).toBe('shot-2');
  expect(newShotId('茶碗 L', new Set())).toBe('l');
});
