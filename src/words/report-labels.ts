import type { Judgement, Tolerance } from '../facts/index.ts';
import { judgementNames } from './names.ts';
import { durationPhrase, figurePhrase } from './phrases.ts';

interface Waits {
  readonly seconds: readonly number[];
  readonly p50S: number | null;
  readonly p90S: number | null;
  readonly p99S: number | null;
  readonly maxS: number | null;
}

/** Names of things on a job's report. */
export const reportLabels = {
  titleOf: (job: string): string => `Job report: ${job}`,
  frames: (frames: number, shotless: number): string =>
    `${frames === 1 ? '1 frame' : `${frames} frames`}${shotless === 0 ? '' : `, ${shotless} of no shot of the list`}`,
  shots: 'Shots',
  noShots: 'No shot is listed: nobody has said what the job has to bring home.',
  columns: {
    shot: 'Shot',
    pictures: 'Pictures',
    heroes: 'Heroes',
    selects: 'Selects',
    client: 'Client',
    open: 'Strike check',
  },
  ofWanted: (there: number, wanted: number): string =>
    wanted === 0 && there === 0 ? '–' : `${there} of ${wanted}`,
  notAsked: 'not asked',
  openLines: (open: number, accepted: number): string => {
    const parts = [
      ...(open === 0 ? [] : [`${open} open`]),
      ...(accepted === 0 ? [] : [`${accepted} accepted`]),
    ];
    return parts.length === 0 ? 'in order' : parts.join(', ');
  },
  moreShots: (count: number, open: number): string =>
    `and ${count} more ${count === 1 ? 'shot' : 'shots'}, ${open === 0 ? 'none' : open} of them with open lines`,

  waits: 'How long people waited',
  waitsAxis: 'seconds after the shutter',
  waitsAxisByte: 'seconds after the first byte',
  shareAxis: 'share of frames, %',
  view: 'first view',
  rendering: 'rendering',
  percentiles: ({ seconds, p50S, p90S, p99S, maxS }: Waits): string => {
    if (maxS === null) return 'nothing is known';
    const told = (name: string, value: number | null, least: number): string =>
      value === null ? `${name} not told (under ${least} frames)` : `${name} ${durationPhrase(value * 1000)}`;
    return [
      told('p50', p50S, 2),
      told('p90', p90S, 10),
      told('p99', p99S, 100),
      `longest ${durationPhrase(maxS * 1000)}`,
      `of ${seconds.length}`,
    ].join(', ');
  },
  beyond: (count: number): string =>
    count === 1 ? '1 frame lies beyond the drawing.' : `${count} frames lie beyond the drawing.`,
  noWaits: 'No frame came by a camera’s upload with its times: nothing is known.',
  shutterUnknown: 'No time of a shutter can be believed here, so waiting is told from the first byte on.',
  howKnown:
    'The shutter’s moment is what the camera wrote (Exif), corrected by what was said of its clock; all other moments are by the station’s clock.',

  moreDoubts: (count: number): string => `and ${count} more to be said of how times are known.`,

  light: 'Light against the reference of each shot',
  lightAxis: 'EV',
  timeAxis: 'time of day',
  orderAxis: 'pictures in the order they were taken',
  lightCaption: (
    count: number,
    worst: { readonly name: string; readonly ev: number },
    unknown: number,
  ): string =>
    `${count === 1 ? '1 picture' : `${count} pictures`}; furthest off ${worst.name}, ${figurePhrase(worst.ev, 'EV')}.${
      unknown === 0 ? '' : ` Of ${unknown} more it is not known.`
    }`,
  lightLimits: ({ good, bad }: Tolerance): string =>
    `Grey: within ${figurePhrase(good, 'EV')}; broken lines: ${figurePhrase(bad, 'EV')}.`,
  noLight: (unknown: number): string =>
    unknown === 0
      ? 'There is no picture whose light could be told.'
      : `Nothing is known: none of ${unknown} pictures could be held against a reference.`,

  colour: 'Colour against the target (ΔE00)',
  colourColumns: {
    frame: 'Frame',
    mean: 'mean',
    max: 'largest',
    delivered: 'as delivered',
    verdict: 'verdict',
  },
  colourLimits: (mean: Tolerance, max: Tolerance): string =>
    `Good up to ${mean.good} in the mean and ${max.good} at most, bad above ${mean.bad} and ${max.bad}; by a published set of limits where the job names one.`,
  noColour: 'No target was read: how true the colours are is not known.',
  moreTargets: (count: number): string => `and ${count} more`,
  figure: (value: number | null): string => (value === null ? 'not known' : value.toFixed(1)),
  judgement: (judgement: Judgement): string => judgementNames[judgement],

  kept: 'Numbers and copies',
  noneMissing: 'No number is missing between frames that came.',
  missing: (count: number): string => (count === 1 ? '1 number never came.' : `${count} numbers never came.`),
  explained: (name: string, reason: string): string => `(${name}: ${reason})`,
  copies: (files: number, twice: number, direct: number): string =>
    files === 0
      ? 'No file is here.'
      : `${twice} of ${files} files lie on a second device, read back and the same; ${direct} of them were read from the device itself.`,
  noSecondPlace: 'There is no second place that counts: every file lies on one disk.',
  notWhole: (count: number): string =>
    count === 1 ? '1 file is not whole or on its way.' : `${count} files are not whole or on their way.`,

  open: 'Open',
  nothingOpen: 'Nothing is open.',
  moreOpen: (count: number): string => `and ${count} more: the strike check lists them.`,
  accepted: (count: number, names: readonly string[]): string =>
    `${count === 1 ? '1 line' : `${count} lines`} accepted by name: ${names.join(', ')}.`,
  notSigned: 'Nobody has signed the strike check.',
} as const;
