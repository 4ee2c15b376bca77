import type { Mark } from '../facts/index.ts';
import { markNames } from './names.ts';

const namedMax = 8;

/** Said on papers of every kind. */
export const paperLabels = {
  /** `sign` is what stands on the paper, `letters` what was to stand there, as they were met. */
  lacking: (sign: string, letters: readonly string[]): string => {
    const named = letters.slice(0, namedMax).map(codesOf).join(', ');
    const more = letters.length > namedMax ? ` and ${letters.length - namedMax} more` : '';
    return `${sign} stands for what the type of this paper does not have: ${named}${more}. The pages of the station show it.`;
  },
  pageOf: (page: number, pages: number): string => `${page} of ${pages}`,
  goesOn: (shot: string): string => `${shot}, going on`,
  written: (when: string, version: string): string => `As it stood on ${when}. Setside ${version}.`,
} as const;

/** What a contact sheet says of itself and its frames. */
export const contactPaperLabels = {
  titleOf: (job: string): string => `Contact sheet: ${job}`,
  client: (client: string): string => `for ${client}`,
  frames: (count: number): string => (count === 1 ? '1 frame' : `${count} frames`),
  shotsAsked: (shots: readonly string[]): string =>
    shots.length === 1 ? `Only of ${shots[0]}` : `Only of ${shots.join(', ')}`,
  marksAsked: (marks: readonly Mark[]): string =>
    `Only marked ${marks.map((mark) => markNames[mark].toLowerCase()).join(', ')}`,
  shapes:
    'The shape is the worst verdict: filled disc good, half disc doubt, ring with a bar bad, dotted ring unknown, ring about a disc accepted.',
  marks:
    'About a picture: double frame hero, frame select, broken frame alternate, stroke across out. Numbers are remarks.',
  noShot: 'Of no shot',
  remarks: (names: readonly string[]): string =>
    names.length === 1 ? `Remark ${names[0]}` : `Remarks ${names.join(', ')}`,
  remarkLead: (name: string, frame: string, by: string): string => `${name}  ${frame}, ${by}`,
  settled: 'settled',
  answer: (by: string, text: string): string => `${by}: ${text}`,
  notYet: 'Not rendered yet',
  notReadable: 'Its file could not be read',
} as const;

/** As the Unicode Standard writes code points: U+4E2D. */
function codesOf(letter: string): string {
  return [...letter]
    .map((each) => `U+${(each.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`)
    .join(' ');
}
