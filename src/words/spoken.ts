import type { Finding, Judgement } from '../facts/index.ts';
import { sentence } from './sentences.ts';

/** What one frame's telling rests on, as far as it is spoken. */
export interface SpokenFrame {
  readonly judgement: Judgement;
  /** Why; null where the word says all. */
  readonly finding: Finding | null;
}

/** How each answer is begun. */
const openings: Readonly<Record<Judgement, string>> = {
  good: 'Good.',
  doubt: 'Doubt.',
  bad: 'Bad.',
  unknown: 'Unknown.',
};

/** One frame, said aloud: the word first, since a listener may hear no more of it, then why. */
export function spokenFrame({ judgement, finding }: SpokenFrame): string {
  if (judgement === 'good' || finding === null) return openings[judgement];
  return `${openings[judgement]} ${aloud(sentence(finding))}`;
}

/** Several frames in one breath: `Four frames, one doubt.`, `Three frames, all good.` */
export function spokenFrames(judgements: readonly Judgement[]): string {
  const count = (judgement: Judgement): number => judgements.filter((each) => each === judgement).length;
  const [bad, doubts, unknown] = [count('bad'), count('doubt'), count('unknown')];
  const parts = [
    ...(bad > 0 ? [`${numberWord(bad)} bad`] : []),
    ...(doubts > 0 ? [`${numberWord(doubts)} ${doubts === 1 ? 'doubt' : 'doubts'}`] : []),
    ...(unknown > 0 ? [`${numberWord(unknown)} unknown`] : []),
  ];
  const all = `${numberWord(judgements.length)} ${judgements.length === 1 ? 'frame' : 'frames'}`;
  return `${capital(all)}, ${parts.length === 0 ? 'all good' : listed(parts)}.`;
}

/** What is said that belongs to no frame. */
export const spokenLines = {
  inPlace: 'In place.',
  stationGone: 'The station does not answer.',
  example: 'Doubt. This is how it is said.',
} as const;

/**
 * A sentence as a voice should read it: units and signs by their names. Voices read `px` letter by letter and leave a minus
 * sign out. A stop is what an EV is called on a set (trade).
 */
export function aloud(text: string): string {
  return units.reduce((so, [written, said]) => so.replaceAll(written, said), text);
}

const units: readonly (readonly [RegExp, string])[] = [
  [/−(?=\d)/g, 'minus '],
  [/\+(?=\d)/g, 'plus '],
  [/(?<![\d.])1 px\b/g, '1 pixel'],
  [/ px\b/g, ' pixels'],
  [/(?<![\d.])1 EV\b/g, '1 stop'],
  [/ EV\b/g, ' stops'],
  [/ ΔE00/g, ' delta E'],
  [/ Δu′v′/g, ' in u v'],
  [/ mm\b/g, ' millimetres'],
  [/ kB\b/g, ' kilobytes'],
  [/ MB\b/g, ' megabytes'],
  [/ GB\b/g, ' gigabytes'],
  [/ Hz\b/g, ' hertz'],
  [/(\d) K\b/g, '$1 kelvin'],
  [/(\d) s\b/g, '$1 seconds'],
  [/(\d) min\b/g, '$1 minutes'],
  [/ ?°/g, ' degrees'],
  [/ ?%/g, ' per cent'],
];

const words = [
  ...['no', 'one', 'two', 'three', 'four', 'five', 'six'],
  ...['seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'],
];

function numberWord(count: number): string {
  return words[count] ?? String(count);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function listed(parts: readonly string[]): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`;
}
