import {
  type Question,
  type Tolerance,
  type ToleranceName,
  toleranceNames,
  toleranceUnits,
} from '../facts/index.ts';
import { questionNames } from './names.ts';

/** Names of things about jobs, shots and what is chosen of frames. Sentences are in the tables of findings. */
export const jobLabels = {
  noShotCurrent: 'no shot chosen yet: frames wait without one',
  shotBefore: 'Shot before',
  nextShot: 'Next shot',
  heroesThere: (count: number): string => (count === 1 ? 'hero' : `${count} heroes`),
  addShots: 'Add shots',
  makeOrOpenJob: 'Make or open a job',
  inTheTray: (frames: string): string => `${frames} in the tray`,
  /** `whose`: empty for one's own; nobody shall take back another's act unawares. */
  undo: (what: string, whose = ''): string => (whose === '' ? `Undo: ${what}` : `Undo: ${what} (${whose})`),
  elsewhere: 'on another screen',
  byCommand: 'by a command',
  doneBy: (by: string): string => `by ${by}`,
  undoShort: 'Undo',
  actsDone: 'Who did what',
  /** Beside what somebody did: it was taken back then, by whom. */
  takenBackThen: (when: string, whose: string): string => `taken back ${when} by ${whose}`,
  theOperator: 'the operator',
  onThisScreen: 'on this screen',
  undone: (what: string, whose = ''): string =>
    whose === '' ? `Taken back: ${what}.` : `Taken back: ${what} (${whose}).`,
  takingBack: 'Working on it …',
  putBack: 'Put it back',
  isPutBack: (what: string): string => `Put back: ${what}.`,
  keepIt: 'Leave it so',
  carried: (name: string): string => `${name}: let go over a shot`,
  letGoHere: (name: string, shot: string): string => `${name} goes to ${shot}`,

  keyNextShot: 'on to the next shot',
  keyShotBefore: 'back to the shot before',
  keyMove: 'this frame goes to another shot',
  keyFrameCard: 'card of this frame',
  keyUndo: 'take back what was done last',
  keyPutBack: 'put back what was taken back',

  suggestedMark: (mark: string, sidecar: string | null): string =>
    `${sidecar ?? 'The camera’s rating'} suggests: ${mark}.`,
  sidecarDiffers: (sidecar: string, theirs: string, ours: string): string =>
    `${sidecar} came later and says ${theirs}; here it is ${ours}.`,
  takeMark: (mark: string): string => `Make it ${mark}`,
  keepMark: (mark: string): string => `Leave it ${mark}`,
  sidecarSays: (sidecar: string, words: string): string => `${sidecar}: ${words}`,

  more: 'More',
  jobClosed: (job: string): string =>
    `Job ${job} is closed: the mark can still be changed, and nothing else.`,
  takeUpOnJobPage: 'Take it up again on the Job page',
  frameCardUndo: 'Everything here can be taken back with Undo.',
  belongsTo: 'Belongs to',
  noShotOf: (job: string): string => `${job}, no shot`,
  hiddenShot: 'a shot that was taken from the list',
  theTray: 'the tray (no job)',
  goneJob: (job: string): string => `${job}, a job that is in no list`,
  takenAs: 'Taken as',
  takenAsHelp: 'Only pictures are judged fully. Everything is kept, whatever it is.',
  heldAgainst: (shot: string): string => `Frames of ${shot} are held against`,
  isReference: 'This is the reference',
  reference: 'reference',
  baselineFromHere: 'New baseline from here',
  baselineHelp:
    'After a change of set or light that was meant: frames from this moment on are held against this one.',
  baselineSince: (time: string): string =>
    `Baseline: frames from ${time} on are held against this one; press again to take that away.`,
  referenceNeedsShot: 'A frame that belongs to a shot can be its reference or a new baseline.',
  notGood: 'Not good, and who takes it so',
  acceptedBy: (name: string, reason: string): string => `Accepted by ${name}: ${reason}`,
  coversNoLonger: 'The verdict is worse by now, so this no longer covers it.',
  takeAcceptanceBack: 'Take it back',
  acceptThis: 'Accept it as it is',
  yourName: 'Your name',
  why: 'Why',
  whyExample: 'such as: soft on purpose',
  accept: 'Accept',

  frameGoesTo: (name: string): string => `${name} goes to`,
  nothingYet: 'nothing yet',
  outOfItsShot: 'To no shot of this job',
  noJobToMoveTo: 'No job is open that it could go to. Make or open one first.',

  shootThisNow: 'Shoot this now',
  framesComeHere: 'Frames come here now',
  changeOnJobPage: 'Change it on the Job page',
  noFramesYet: 'Nothing yet.',
  addLayout: 'Add a layout picture',
  changeLayout: 'Another layout picture',
  noLayout: 'No layout',
  layoutSending: 'The layout is on its way.',
  layoutOf: (shot: string): string => `Layout of ${shot}`,
  onlyCamera: (camera: string): string => `Only frames of ${camera} come here.`,
  heroesWanted: (wanted: number, there: number): string => `Heroes: ${there} of ${wanted}.`,
  selectsWanted: (wanted: number, there: number): string => `Selects: ${there} of ${wanted}.`,
  clientAgrees: 'The client’s word is wanted.',
  nothingRequired: 'No verdict has to be good.',
  mustBeGood: (questions: string): string => `Must be good, or accepted: ${questions}.`,
  notSpokenOf: (questions: string): string => `Not spoken of: ${questions}.`,
  stillOpen: (questions: string): string => `open: ${questions}`,
  andMore: (count: number): string => `and ${count} more`,

  trayTitle: 'The tray',
  trayHelp:
    'Frames that came while no job was open. They are kept like all others; moving one changes where it is listed, never its file.',
  trayEmpty: 'The tray is empty.',
  makeAJob: 'Make a job',
  intoJob: 'Into the job',
  intoShot: 'To the shot',
  noShotYet: 'none yet',
  moveFrames: (frames: string): string => `Move ${frames}`,
  chooseAll: 'Choose all',
  chooseNone: 'Choose none',
} as const;

/** `QM-26, Autumn catalogue`. */
export function jobTitle({ code, title }: { readonly code: string; readonly title: string }): string {
  return title === '' ? code : `${code}, ${title}`;
}

/** What a limit is about, in plain words, and the question it belongs to. */
export const toleranceWords: Readonly<Record<ToleranceName, { question: Question; words: string }>> = {
  edgeWidthPx: { question: 'sharp', words: 'width of the sharpest edge' },
  saturatedPercent: { question: 'exposed', words: 'part of the picture that is burnt out' },
  lightEv: { question: 'exposed', words: 'light away from the reference' },
  backdropGreyPercent: { question: 'exposed', words: 'white backdrop wanted: part of it not white' },
  shiftPx: { question: 'inPlace', words: 'subject moved, in pixels' },
  shiftMm: {
    question: 'inPlace',
    words: 'subject moved, on the set (does nothing until the size of a pixel there is known)',
  },
  rotationDeg: { question: 'inPlace', words: 'subject turned' },
  scalePercent: { question: 'inPlace', words: 'subject larger or smaller' },
  meanDeltaE00: { question: 'colour', words: 'colour error of the target, mean' },
  maxDeltaE00: { question: 'colour', words: 'colour error of the target, worst patch' },
  neutralDuv: { question: 'colour', words: 'greys towards green or magenta' },
};

/** `Sharp, width of the sharpest edge: good up to 2 px, bad above 4 px.` for each limit that is set. */
export function tolerancePhrases(
  tolerances: Readonly<Partial<Record<ToleranceName, Tolerance | undefined>>>,
): string[] {
  return toleranceNames.flatMap((name) => {
    const limits = tolerances[name];
    return limits === undefined ? [] : [tolerancePhrase(name, limits)];
  });
}

function tolerancePhrase(name: ToleranceName, { good, bad }: Tolerance): string {
  const { question, words } = toleranceWords[name];
  const unit = toleranceUnits[name];
  return `${questionNames[question]}, ${words}: good up to ${good} ${unit}, bad above ${bad} ${unit}.`;
}
