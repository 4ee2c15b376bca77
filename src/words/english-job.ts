import { questions } from '../facts/index.ts';
import { lookPlaces } from './look-acts.ts';
import { questionName } from './names.ts';
import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of jobs, shot lists and acts that can be taken back. Codes `shot-list.*` and `job.*`. */
export const jobSentences: SentenceTable = {
  'shot-list.empty': () => 'The file is empty: there is no list in it.',
  'shot-list.no-name-column': () =>
    'The first line names no column “name”, so this is not a shot list that can be read.',
  'shot-list.no-lines': () => 'There is no shot below the first line.',
  'shot-list.no-shots': () =>
    'There is no list “shots” in this file: save a list as JSON here to see how one looks.',
  'shot-list.lines-not-read': (args) =>
    `The list is longer than ${numberArg(args, 'max')} lines; the rest was not read.`,
  'shot-list.columns-there-are': (args) =>
    `Columns that may stand there too: ${textArg(args, 'names')}. How many pictures a shot is to have stands in heroes and selects; deliveries belong to the job, not to a shot.`,
  'shot-list.line-quote': (args) => `${lineOf(args)} has a quotation mark where none may be.`,
  'shot-list.line-unclosed': (args) => `${lineOf(args)} has a quotation mark that never closes.`,
  'shot-list.line-too-long': (args) => `${lineOf(args)} is too long.`,
  'shot-list.line-given-up': (args) =>
    `From line ${numberArg(args, 'line')} on nothing was read: too many lines are no lines of a table.`,
  'shot-list.too-many-columns': (args) => `${lineOf(args)} has more than ${numberArg(args, 'max')} columns.`,
  'shot-list.field-too-long': (args) =>
    `${lineOf(args)} has more than ${numberArg(args, 'max')} characters in column ${numberArg(args, 'column')}.`,
  'shot-list.no-name': (args) => `${lineOf(args)} names no shot.`,
  'shot-list.name-too-long': (args) =>
    `${lineOf(args)} has a name of more than ${numberArg(args, 'max')} characters.`,
  'shot-list.bad-id': (args) =>
    `${lineOf(args)} has the id “${textArg(args, 'id')}”; an id has letters, digits, _ and - only.`,
  'shot-list.id-twice': (args) => `${lineOf(args)} has the id “${textArg(args, 'id')}” a second time.`,
  'shot-list.bad-cell': (args) =>
    `${lineOf(args)} says “${textArg(args, 'cell')}” for ${textArg(args, 'column')}, which cannot be read${wantedIn(textArg(args, 'column'))}.`,
  'shot-list.no-such-frame': (args) =>
    `${lineOf(args)} names the ${textArg(args, 'column')} “${textArg(args, 'frame')}”, and there is no such frame here: left out.`,
  'job.problem-no-shots': () => 'The list is empty: frames that come belong to no shot.',
  'job.problem-no-current': () =>
    'No shot is chosen: frames that come belong to none. Choose one on the Set page.',
  'job.problem-day-over': (args) =>
    `Its last day was ${textArg(args, 'to')}, and it is still open: frames of today go to it.`,
  'job.problem-camera-unknown': (args) =>
    `“${textArg(args, 'shot')}” takes frames of ${textArg(args, 'camera')} only, and no camera of this name is known.`,
  'job.problem-camera-ended': (args) =>
    `“${textArg(args, 'shot')}” takes frames of ${textArg(args, 'camera')} only, which may not come in any more.`,
  'job.problem-required-and-muted': (args) =>
    `“${textArg(args, 'shot')}” asks that ${questionName(textArg(args, 'question'))} be good, and also that it be not spoken of.`,
  'job.problem-reference-out': (args) => `The reference of “${textArg(args, 'shot')}” is a frame marked out.`,
  'job.problem-name-twice': (args) =>
    `${numberArg(args, 'count')} shots are called “${textArg(args, 'name')}” (numbers ${textArg(args, 'numbers')}): give each a name of its own, or they are told apart by their ids only.`,
  'job.problem-no-target': () =>
    'True is asked for, and no frame of this job is a colour target or grey card yet.',
  'job.made': (args) => `Job ${textArg(args, 'job')} was made.`,
  'job.changed': (args) => `Job ${textArg(args, 'job')} was changed.`,
  'job.opened': (args) => `Job ${textArg(args, 'job')} was opened: frames go to it.`,
  'job.laid-aside': (args) => `Job ${textArg(args, 'job')} was laid aside.`,
  'job.closed': (args) => `Job ${textArg(args, 'job')} was closed.`,
  'job.limits-changed': (args) => `The tolerances of job ${textArg(args, 'job')} were changed.`,
  'job.shot-current': (args) =>
    `Frames of job ${textArg(args, 'job')} go to “${textArg(args, 'shot')}” from now on.`,
  'job.no-shot-current': (args) => `Frames of job ${textArg(args, 'job')} go to no shot from now on.`,
  'job.shot-added': (args) => `Shot “${textArg(args, 'name')}” was added to job ${textArg(args, 'job')}.`,
  'job.shot-changed': (args) => `Shot “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} was changed.`,
  'job.shot-frames-ordered': (args) =>
    `The chosen frames of shot “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} were put in order.`,
  'job.shot-taken-away': (args) =>
    `Shot “${textArg(args, 'shot')}” was taken from job ${textArg(args, 'job')}.`,
  'job.shot-brought-back': (args) =>
    `Shot “${textArg(args, 'shot')}” is listed again in job ${textArg(args, 'job')}.`,
  'job.shots-ordered': (args) => `The shots of job ${textArg(args, 'job')} were put in order.`,
  'job.list-taken-in': (args) =>
    `A shot list of ${numberArg(args, 'count')} lines was taken into job ${textArg(args, 'job')}.`,
  'job.layout': (args) =>
    `Shot “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} has another layout picture.`,
  'job.baseline': (args) =>
    `Shot “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} has a new baseline from ${textArg(args, 'name')} on.`,
  'job.new-target': (args) =>
    `The target in ${textArg(args, 'name')} counts in job ${textArg(args, 'job')} from that frame on.`,
  'job.target-gone': (args) =>
    `The target in ${textArg(args, 'name')} no longer counts in job ${textArg(args, 'job')}.`,
  'job.scale': (args) =>
    `How large things are in the pictures of shot “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} was told.`,
  'job.scale-gone': (args) =>
    `How large things are in the pictures of shot “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} is told no more.`,
  'job.last-number': (args) =>
    `The last number of ${textArg(args, 'camera')} in job ${textArg(args, 'job')} was said to be ${numberArg(args, 'counter')}.`,
  'job.last-number-gone': (args) =>
    `The last number of ${textArg(args, 'camera')} in job ${textArg(args, 'job')} was taken back.`,
  'job.explained': (args) =>
    `${textArg(args, 'name')} took a line of the strike check of job ${textArg(args, 'job')} upon themselves.`,
  'job.explained-gone': (args) => `A line of the strike check of job ${textArg(args, 'job')} is open again.`,
  'job.signed': (args) => `${textArg(args, 'name')} signed the strike check of job ${textArg(args, 'job')}.`,
  'job.signature-gone': (args) =>
    `The signature under the strike check of job ${textArg(args, 'job')} was taken back.`,
  'job.baseline-removed': (args) =>
    `Frames of “${textArg(args, 'shot')}” of job ${textArg(args, 'job')} are no longer held against ${textArg(args, 'name')}.`,
  'job.frame-changed': (args) => `Frame ${textArg(args, 'name')} was marked or moved.`,
  'job.frame-marked': (args) => `Frame ${textArg(args, 'name')} was marked ${textArg(args, 'mark')}.`,
  'job.frame-purpose': (args) =>
    `What frame ${textArg(args, 'name')} was taken for was set: ${textArg(args, 'purpose')}.`,
  'job.frame-spot': (args) => `Where frame ${textArg(args, 'name')} has to be sharp was pointed out.`,
  'job.frame-no-spot': (args) => `The spot on frame ${textArg(args, 'name')} was taken back.`,
  'job.frame-look': (args) => `Frame ${textArg(args, 'name')} has the look ${textArg(args, 'look')}.`,
  'job.frame-no-look': (args) => `Frame ${textArg(args, 'name')} has the look of its shot or its job again.`,
  'job.look-saved': (args) => `The look ${textArg(args, 'look')} was saved.`,
  'job.look-laid-aside': (args) => `The look ${textArg(args, 'look')} was laid aside.`,
  'job.look-put-back': (args) => `The look ${textArg(args, 'look')} is offered again.`,
  'job.look-used': (args) => `The look ${textArg(args, 'look')} was given to ${lookPlaces(args)}.`,
  'job.look-not-kept': (args) =>
    `No look of the name “${textArg(args, 'name')}” is kept; frames are shown with the plain look.`,
  'job.frame-to-shot': (args) => `Frame ${textArg(args, 'name')} was moved to “${textArg(args, 'shot')}”.`,
  'job.frames-to-shot': (args) =>
    `${numberArg(args, 'count')} frames were moved to “${textArg(args, 'shot')}”.`,
  'job.frames-to-no-shot': (args) => `${numberArg(args, 'count')} frames were taken out of their shots.`,
  'job.frame-to-no-shot': (args) => `Frame ${textArg(args, 'name')} was taken out of its shot.`,
  'job.frame-to-job': (args) => `Frame ${textArg(args, 'name')} was moved to job ${textArg(args, 'job')}.`,
  'job.frame-to-tray': (args) => `Frame ${textArg(args, 'name')} was moved to the tray.`,
  'job.frames-marked': (args) => `${numberArg(args, 'count')} frames were marked: ${textArg(args, 'mark')}.`,
  'job.frames-taken-in': (args) =>
    `${numberArg(args, 'count')} frames were moved to job ${textArg(args, 'job')}.`,
  'job.frame-shown': (args) => `Frame ${textArg(args, 'name')} is shown to guests.`,
  'job.frame-kept-back': (args) => `Frame ${textArg(args, 'name')} is kept back from guests.`,
  'job.frame-share-by-mark': (args) =>
    `Frame ${textArg(args, 'name')} is shown to guests if its mark says so.`,
  'job.agreed': (args) => `${textArg(args, 'name')} agreed to ${textArg(args, 'shot')}.`,
  'job.agreement-withdrawn': (args) =>
    `The word of ${textArg(args, 'name')} on ${textArg(args, 'shot')} was taken back.`,
  'job.accepted': (args) =>
    `${textArg(args, 'name')} accepted the verdict on frame ${textArg(args, 'frame')}.`,
  'job.acceptance-withdrawn': (args) =>
    `The acceptance of a verdict on frame ${textArg(args, 'frame')} was taken back.`,
};

/** What a column of a shot list may say, where a person could not guess it. */
const wanted: Readonly<Record<string, string>> = {
  layout: 'the id of a frame here; a picture from a file is put on the Job page',
  reference: 'the id of a frame here',
  heroes: 'a whole number from 0 to 99',
  selects: 'a whole number from 0 to 99',
  agreement: 'yes or no',
  requires: `${questions.join(' ')}, some of these, or none`,
  mutes: `${questions.join(' ')}, some of these, or none`,
  tolerances: 'a name with two figures, such as lightEv 0.1/0.3',
};

function wantedIn(column: string): string {
  const words = Object.hasOwn(wanted, column) ? wanted[column] : undefined;
  return words === undefined ? '' : `; it may be: ${words}`;
}

function lineOf(args: Parameters<typeof numberArg>[0]): string {
  return `Line ${numberArg(args, 'line')}`;
}
