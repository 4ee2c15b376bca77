import type { Mark } from '../facts/index.ts';
import { markNames } from './names.ts';

/** As many are read at a glance. */
const namedMax = 5;

/** Names of things on the Sheet page and the client's screen. */
export const contactLabels = {
  title: 'Sheet',
  job: 'Job',
  theTray: 'the tray (no job)',
  noShot: 'of no shot',
  together: 'All together',
  ask: 'Show',
  anyShot: 'every shot',
  anyStanding: 'every verdict',
  anyMark: 'every mark',
  chosen: 'chosen: hero, select or alternate',
  noMark: 'no mark',
  anyCamera: 'every camera',
  shot: 'Shot',
  verdict: 'Verdict',
  mark: 'Mark',
  camera: 'Camera',
  from: 'From',
  to: 'Until',
  text: 'Words',
  textHelp: 'in names, shots, cameras and remarks',
  sort: 'Order',
  byShot: 'Under their shots',
  everything: 'Show everything',
  sorts: {
    time: 'as taken',
    newest: 'newest first',
    standing: 'worst verdict first',
    mark: 'hero first',
    camera: 'by camera',
    name: 'by name',
  },
  shots: 'Shots along the day',
  frames: 'Frames',
  reading: (known: string): string => `${known} so far, reading on`,
  shownOf: (shown: number, whole: number): string =>
    shown === whole ? String(whole) : `${shown} of ${whole}`,
  heroes: (count: number): string => (count === 1 ? 'hero' : `${count} heroes`),
  nothingYet: 'No frame of this job yet.',
  nothingYetHelp: [
    'Name its shots on the Job page, and have it open while you photograph.',
    'Photograph: each frame lies down here under its shot as it comes in.',
    'Mark with H, S, A and O, or with the buttons below.',
  ],
  nothingAsked: 'No frame of this job is like that.',
  inHand: (count: number): string => (count === 0 ? 'None in hand' : `${count} in hand`),
  /** Frames that somebody else marked while one chose: named, so that nobody has to look for them. */
  markedMeanwhile: (frames: readonly { readonly name: string; readonly mark: Mark }[]): string => {
    const named = frames.slice(0, namedMax).map(({ name, mark }) => `${name} (${markNames[mark]})`);
    const more = frames.length - named.length;
    return `Somebody else has marked meanwhile, and these were left as they are: ${named.join(', ')}${
      more > 0 ? ` and ${more} more` : ''
    }. Mark again to change them.`;
  },
  /** Thousands are marked in parts; one undo takes back all of them. */
  markingOn: (done: number, of: number): string => `${done} of ${of} are marked, marking on`,
  movingOn: (done: number, of: number): string => `${done} of ${of} are moved, moving on`,
  /** Where a line was cut: what became of a mark when it was back. */
  markLost: (frames: string): string =>
    `The line was cut before ${frames} could be marked: as they are shown is how they are. Mark again.`,
  moveTo: 'To a shot',
  toStrike: 'Strike check',
  toJob: 'Job page',
  ways: 'Ways',
  toFrames: 'To the frames',
  noSuchJob: (code: string): string => `There is no job ${code}.`,
  noSuchJobHelp: 'Choose one above; the Job page makes one.',
  suggested: (mark: string): string => `${mark} suggested`,
  forClient: 'For the client: what guests see, without verdicts',
  before: 'Frame before',
  next: 'Next frame',
  several: 'Take several',
  letGo: 'Let go',
  compare: 'Compare',
  look: 'Look closely',
  compareHelp: 'Take two to four in hand to compare them.',
  toClient: 'Show to the client',
  clientFollows: 'Client sees the newest',
  onSet: 'Show on Set',
  print: 'Print',
  /** What was refused: an order. */
  order: 'Order',
  earlier: 'Earlier in order',
  later: 'Later in order',

  close: 'Back to the sheet',
  laid: 'Lay over all',
  laidNothing: 'nothing',
  picture: (at: number, name: string): string => `Picture ${at}, ${name}`,

  printTitle: 'Contact sheet',
  printReady: 'Print it',
  printWaits: (loaded: number, of: number): string => `${loaded} of ${of} pictures are here`,
  printLost: (count: number): string =>
    count === 1
      ? 'One did not come: its name is printed in its place.'
      : `${count} did not come: their names are printed in their place.`,
  printBound: (of: number): string =>
    `The first ${of} frames are printed. Ask for fewer above: chosen ones, or one shot.`,
  printed: (when: string): string => `Printed ${when}`,

  remarks: (count: number): string => (count === 1 ? '1 remark' : `${count} remarks`),

  keyArrows: 'from frame to frame',
  keyReach: 'take all on the way in hand',
  keyAdd: 'this one in hand too, or no longer',
  keyAll: 'all that are shown in hand',
  keyLook: 'look closely; two to four side by side',
  keyEmpty: 'nothing in hand',
  keyOrder: 'a chosen frame earlier or later in its order',
  keyClient: 'show it to the client',
  keyCompared: 'while comparing: the keys are about this one',
  keyBeside: 'looking closely at one: the frame before, the next; while comparing: from picture to picture',
  keyZoom: 'looking closely: closer, farther, pixel for pixel; arrows pan',
  keyLay: 'while comparing: the next map over all',
} as const;
