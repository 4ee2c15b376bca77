/**
 * Letters that are not one of a to z with an accent, as passports write them: ICAO Doc 9303 part 3, section 6, tables of
 * Latin and Cyrillic letters, taken as small letters. Å is written A there too where a state wants it; we follow the first
 * of its spellings. Greek letters after ISO 843:1997, transcription (from memory), which goes by sound and writes ου as one.
 */
const spelledOut: Readonly<Record<string, string>> = {
  ä: 'ae',
  ö: 'oe',
  ü: 'ue',
  ß: 'ss',
  å: 'aa',
  æ: 'ae',
  ø: 'oe',
  œ: 'oe',
  þ: 'th',
  ð: 'd',
  đ: 'd',
  ħ: 'h',
  ı: 'i',
  ĳ: 'ij',
  ł: 'l',
  ŋ: 'n',
  ŧ: 't',
  а: 'a',
  б: 'b',
  в: 'v',
  г: 'g',
  ґ: 'g',
  д: 'd',
  е: 'e',
  ё: 'e',
  є: 'ie',
  ж: 'zh',
  з: 'z',
  и: 'i',
  й: 'i',
  і: 'i',
  ї: 'i',
  к: 'k',
  л: 'l',
  м: 'm',
  н: 'n',
  о: 'o',
  п: 'p',
  р: 'r',
  с: 's',
  т: 't',
  у: 'u',
  ў: 'u',
  ф: 'f',
  х: 'kh',
  ц: 'ts',
  ч: 'ch',
  ш: 'sh',
  щ: 'shch',
  ъ: 'ie',
  ы: 'y',
  ь: '',
  э: 'e',
  ю: 'iu',
  я: 'ia',
  α: 'a',
  β: 'v',
  γ: 'g',
  δ: 'd',
  ε: 'e',
  ζ: 'z',
  η: 'i',
  θ: 'th',
  ι: 'i',
  κ: 'k',
  λ: 'l',
  μ: 'm',
  ν: 'n',
  ξ: 'x',
  ο: 'o',
  π: 'p',
  ρ: 'r',
  σ: 's',
  ς: 's',
  τ: 't',
  υ: 'y',
  φ: 'f',
  χ: 'ch',
  ψ: 'ps',
  ω: 'o',
};

/** Characters of an id that a name gives; a number behind it makes it longer. */
const idCharactersMax = 40;

/**
 * A free id that says the name: letters and digits of ASCII, hyphens between, `-2` where it is taken. A name in letters
 * that have no spelling here gives `shot`.
 */
export function newShotId(name: string, taken: ReadonlySet<string>): string {
  const base = plainOf(name) || 'shot';
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? base : `${base}-${number}`;
    if (!taken.has(id)) return id;
  }
}

function plainOf(name: string): string {
  const letters = [...name.normalize('NFC').toLowerCase().replace(/ο[υύ]/g, 'ou')].map(spelled);
  return letters
    .join('')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, idCharactersMax)
    .replace(/^-|-$/g, '');
}

/** As it stands in the tables; else, where only its accent is strange to them, as the letter without it. */
function spelled(letter: string): string {
  return spelledOut[letter] ?? spelledOut[letter.normalize('NFD').charAt(0)] ?? letter;
}
