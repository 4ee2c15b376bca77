import type { TargetEdition } from '../facts/index.ts';

type JobState = 'open' | 'waiting' | 'closed';

/** Names of things on the Job page and on the call sheet. */
export const jobPageLabels = {
  toSet: 'Set',
  jobs: 'Jobs',
  newJob: 'New job',
  noJobYet: 'No job yet. Make one: a code and a shot list are enough to begin.',
  noSuchJob: (code: string): string => `There is no job ${code} here.`,
  loading: 'Looking for the jobs.',
  lost: 'The station does not answer. What you see may be old; nothing can be changed until it is back.',

  code: 'Code',
  codeHelp:
    'Short, as it stands on files and folders: letters, digits, dots, hyphens, underscores. It stays as it is.',
  title: 'Title',
  client: 'Client',
  from: 'First day',
  to: 'Last day',
  place: 'Place',
  notes: 'Notes',
  notesHelp: 'They stand on the call sheet, for everybody on the set.',
  copyOf: 'Like an earlier job',
  copyOfNone: 'no, from nothing',
  copyOfHelp: 'Its shots, references, tolerances, client and place are taken over; its frames are not.',
  openAtOnce: 'Frames go to it at once',
  make: 'Make the job',

  open: 'Open: frames go here',
  layAside: 'Lay aside',
  closeJob: 'Close the job',
  closeSure:
    'A closed job keeps its list and its frames as they are until it is taken up again; frames can still be marked.',
  reopen: 'Open again: frames go here',
  takeUp: 'Take up again, frames go elsewhere',
  callSheet: 'Call sheet',
  callSheetOf: (job: string): string => `Call sheet of ${job}`,

  shots: 'Shots',
  addShot: 'Add a shot',
  addShotExample: 'its name, such as Teapot from above',
  add: 'Add',
  shotName: 'Name',
  description: 'What it shows',
  camera: 'Camera',
  everyCamera: 'any camera',
  cameraEnded: (camera: string): string => `${camera} (may not come in)`,
  cameraUnknown: (camera: string): string => `${camera} (not known here)`,
  heroes: 'Heroes wanted',
  selects: 'Selects wanted',
  agreement: 'The client’s word is wanted',
  requires: 'Must be good, or accepted',
  mutes: 'Not spoken of',
  ownTolerances: 'Tolerances of its own',
  asTheJob: 'as the job',
  edit: 'Edit',
  done: 'Done',
  up: (shot: string): string => `${shot} one up`,
  down: (shot: string): string => `${shot} one down`,
  drag: (shot: string): string => `Drag ${shot} to another place`,
  takeAway: 'Take from the list',
  takeAwayKeeps: (frames: string): string =>
    `What it has (${frames}) is kept and stays with it; the shot is hidden. It is listed below, with the way back.`,
  takeAwayEmpty: 'It has no frames. Undo brings it back.',
  current: 'frames come here now',
  takenAway: 'Taken from the list',
  takenAwayHelp: 'They have frames, which stay with them.',
  takenAwayShort: 'taken from the list',
  bringBack: 'Bring back',
  heroesShort: (count: number): string => (count === 1 ? '1 hero' : `${count} heroes`),
  selectsShort: (count: number): string => (count === 1 ? '1 select' : `${count} selects`),

  tolerances: 'Tolerances',
  tolerancesHelp:
    'Up to the first figure a reading is good, above the second it is bad, between them it is a doubt. Without figures the station’s usual limits count.',
  goodUpTo: 'good up to',
  badAbove: 'bad above',
  bothWanted: 'Both figures are wanted, or none.',
  goodBelowBad: 'The second figure must not be below the first.',
  noNumber: 'That is no figure.',
  countRange: 'Give a whole number from 0 to 99.',

  colour: 'Colour',
  colourHelp:
    'For frames with a 24-patch target in them. A published set of limits stands in place of the figures for ΔE00 and Duv above; it is kept or missed, and says nothing of resolution or noise.',
  targetEdition: 'Target made',
  targetRecognised: 'recognised by its colours where they tell',
  toleranceSet: 'Limits',
  noToleranceSet: 'the figures above',

  handOver: 'Hand-over',
  naming: 'Names of delivered files',
  namingHelp:
    'Such as {job}_{shot}_{counter}. Kept for the deliveries; originals keep the names the camera gave.',
  look: 'Look',
  lookHelp: 'For every shot that has none of its own.',
  plainLook: 'the plain look',
  jobsLook: 'as the job',
  lookNotKept: (name: string): string => `${name} (not kept yet)`,
  lookLaidAside: (title: string): string => `${title} (laid aside)`,
  lookLoading: (name: string): string => `${name} …`,
  otherLook: 'a look that is not kept yet …',
  otherLookName: 'Its name',
  otherLookHelp: 'Frames have the plain look until a look of this name is saved.',
  ownLookHelp: 'Of this shot alone; without one the job’s counts.',
  deliveries: 'Deliveries',
  deliveriesHelp: 'Names with commas between, such as web, print, archive.',

  problems: 'To look after',
  noProblems: 'Nothing to look after.',
  copiesGoTo: (folder: string): string => `Everything is copied to ${folder} as well.`,
  placeThatDoesNotCount: (folder: string): string =>
    `Everything is copied to ${folder} too, but that is on the same disk as the originals, or in memory, and does not count.`,

  files: 'The shot list as a file',
  exportCsv: 'Save as table (CSV)',
  exportJson: 'Save as JSON',
  chooseFile: 'Take in a list',
  chooseFileHelp:
    'CSV from any spreadsheet, or JSON as saved here: choose a file or drop it on this page. You see first what it would do.',
  dropHere: 'Let go: you see first what it would do',
  noJson:
    'This file is no JSON that can be read: a comma or a quotation mark may be missing. Nothing was taken in.',
  tooLarge: 'This file is larger than 8 MB: no shot list is. Nothing was taken in.',
  wouldDo: (name: string): string => `What ${name} would do`,
  takeIn: (count: number): string => (count === 1 ? 'Take in 1 shot' : `Take in ${count} shots`),
  nothingToTakeIn: 'Nothing in it can be taken in.',
  nothingNew: 'Everything in it is here already.',
  takeOrder: 'Take over its order',
  reorders: 'The order of the list is taken over; shots that it does not name come after.',
  emptyCells: 'A cell that is empty leaves what stands there.',
  fieldChanges: (field: string, from: string, to: string): string =>
    `${field}: ${quotedCell(from)} → ${quotedCell(to)}`,
  leaveIt: 'Leave it',
  takenIn: (count: number): string =>
    count === 1
      ? '1 shot was taken in. Undo takes it back.'
      : `${count} shots were taken in. Undo takes it back.`,
  lineNumber: 'Line',
  added: 'new',
  changed: 'changed',
  listedAgain: 'listed again',
  same: 'as it is',
  badLines: (count: number): string => (count === 1 ? '1 line is left out:' : `${count} lines are left out:`),
  moreBadLines: (count: number): string => `and ${count} more`,
  unknownColumns: (names: string): string => `Columns that say nothing here: ${names}.`,
  guessed: 'How the letters are written was a guess: look at those with accents.',
  moreLines: (count: number): string => `and ${count} more lines`,
  counts: (added: number, changed: number, same: number): string =>
    `${added} new, ${changed} changed, ${same} as they are.`,

  changedElsewhere: (value: string): string =>
    `Meanwhile somebody else wrote “${value}”. Yours is still here.`,
  changedElsewhereEmpty: 'Meanwhile somebody else emptied this. Yours is still here.',
  putMine: 'Put mine',
  leaveTheirs: 'Leave theirs',
  badDay: 'The last day lies before the first.',
} as const;

/** As much of a cell as a line of a preview has room for. */
function quotedCell(cell: string): string {
  if (cell === '') return 'empty';
  return cell.length > 80 ? `“${cell.slice(0, 80)} …”` : `“${cell}”`;
}

/** What a job's state means for the frames that come. */
export const jobStateWords: Readonly<Record<JobState, string>> = {
  open: 'Frames go to this job now.',
  waiting: 'Laid aside, or not begun: frames do not go here.',
  closed: 'Closed: finished, and unchanged but for marks until it is taken up again.',
};

export const jobStateShort: Readonly<Record<JobState, string>> = {
  open: 'open',
  waiting: 'waiting',
  closed: 'closed',
};

/** When the target on the set was made: it stands on its back. */
export const targetEditionNames: Readonly<Record<TargetEdition, string>> = {
  'before-november-2014': 'before November 2014',
  'from-november-2014': 'from November 2014 on',
};
