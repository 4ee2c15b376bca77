import { jobLimits } from '../../job/index.ts';
import type { WebProblem } from './web-problem.ts';

/** Jobs and shots, what is taken in for them, the strike check, remarks, undo. */
export const jobsProblems = {
  'no-job': {
    status: 400,
    title: 'There is no such job',
    cure: 'See /api/v1/jobs for those that are; "unsorted" is the tray.',
  },
  'no-shot': {
    status: 400,
    title: 'The job has no such shot',
    cure: 'The job’s answer lists its shots; the tray has none.',
  },
  'no-frame': { status: 400, title: 'There is no such frame', cure: null },
  'name-taken': {
    status: 409,
    title: 'Somebody agreed by this name already, on another device',
    cure: 'Give another name; or say that it was you, and your word takes the place of that one.',
  },
  'not-for-the-client': {
    status: 409,
    title: 'That frame is put aside, is no picture, or cannot be shown yet',
    cure: 'Choose another one, or mark this one otherwise.',
  },
  'bad-job-code': {
    status: 400,
    title: 'That cannot be the code of a job',
    cure: 'Use 1 to 40 letters, digits, dots, hyphens and underscores, such as QM-26.',
  },
  'bad-words': {
    status: 400,
    title: 'A text does not fit, a day is none, or the last day lies before the first',
    cure: 'A name or title has at most 120 characters, notes 2000; days are written 2026-10-01.',
  },
  'bad-tolerance': {
    status: 400,
    title: 'Limits of this kind cannot be kept to',
    cure: 'Give two figures, of which the bad one is not below the good one.',
  },
  'bad-order': { status: 400, title: 'The order does not name each once', cure: 'Load the job again.' },
  'bad-text': {
    status: 400,
    title: 'The file is no text that can be read',
    cure: 'Save the list as CSV in UTF-8.',
  },
  'spreadsheet-file': {
    status: 415,
    title: 'That is a spreadsheet’s own file, not its table as text',
    cure: 'Save the list as CSV there, and take that in.',
  },
  'file-empty': { status: 400, title: 'The file is empty', cure: 'Choose the picture again.' },
  'not-a-picture': {
    status: 415,
    title: 'That is no picture we can show',
    cure: 'A layout is a PNG, JPEG, WebP or TIFF file; save a PDF as one of these.',
  },
  'picture-is-raw': {
    status: 415,
    title: 'That is a camera’s raw file, not a layout',
    cure: 'A layout is a PNG, JPEG, WebP or TIFF file.',
  },
  'picture-too-large': {
    status: 413,
    title: 'The picture has too many pixels',
    cure: 'A layout is at most 20,000 pixels long and has 100 million in all: save it smaller.',
  },
  'picture-cannot-decode': {
    status: 422,
    title: 'The picture cannot be read to its end',
    cure: 'Open it in the program that made it and save it again.',
  },
  'job-exists': {
    status: 409,
    title: 'There is a job of this code already',
    cure: 'Choose another code.',
  },
  'job-finished': {
    status: 409,
    title: 'The job is closed',
    cure: 'Take it up again on the Job page first.',
  },
  'too-many-shots': {
    status: 409,
    title: `The list would be longer than ${jobLimits.shotsMax} shots`,
    cure: 'Make a second job for the rest.',
  },
  'too-many-baselines': {
    status: 409,
    title: 'The shot has too many baselines',
    cure: 'Make it a new shot.',
  },
  'too-many-targets': {
    status: 409,
    title: 'Too many targets count in this job',
    cure: 'Let those of past lights count no longer.',
  },
  'target-not-read': {
    status: 409,
    title: 'No target could be read in that frame',
    cure: 'Photograph the whole target once, evenly lit, turned to the camera, large enough.',
  },
  'bad-scale': {
    status: 400,
    title: 'That length tells no scale',
    cure: 'Mark two points as far apart as the picture allows, and say their distance on the set in mm.',
  },
  'no-such-tolerance-set': { status: 400, title: 'There is no such set of tolerances', cure: null },
  'no-such-numbers': {
    status: 400,
    title: 'No frame of the job is numbered so by that camera',
    cure: 'The check names the cameras, with their prefixes where several use one log-in.',
  },
  'no-such-line': {
    status: 409,
    title: 'The check has no such line that can be accepted',
    cure: 'Load the check again: what it says may have changed.',
  },
  'strike-not-ready': {
    status: 409,
    title: 'Lines of the strike check are open',
    cure: 'Mend them, or accept by name and with a reason those that may be.',
  },
  'strike-changed': {
    status: 409,
    title: 'The strike check says something else by now',
    cure: 'Read it again, and sign it then.',
  },
  'name-wanted': { status: 400, title: 'Whoever says something says who they are', cure: 'Give a name.' },
  'no-remark': {
    status: 404,
    title: 'There is no such remark on this frame',
    cure: 'Load the frame again.',
  },
  'id-taken': {
    status: 409,
    title: 'Something else was said under this id',
    cure: 'Say it again under another one.',
  },
  'too-many-remarks': {
    status: 409,
    title: `A frame holds ${jobLimits.remarkEntriesOfFrameMax} remarks and answers, ${jobLimits.remarkCharactersOfFrameMax} characters in all`,
    cure: 'Say it to each other.',
  },
  'nothing-to-agree': {
    status: 409,
    title: 'The shot has no hero that could be agreed to',
    cure: 'Wait until one is chosen.',
  },
  'picture-changed': {
    status: 409,
    title: 'The shot has another picture now than the one that was seen',
    cure: 'Look at it again.',
  },
  'too-many-agreements': {
    status: 409,
    title: `A shot has ${jobLimits.agreementsOfShotMax} agreements at most`,
    cure: 'Take one back first.',
  },
  'not-yours': {
    status: 403,
    title: 'Somebody else gave this agreement',
    cure: 'Only they, or the operator, can take it back.',
  },
  'verdict-is-good': { status: 409, title: 'The verdict is good: there is nothing to accept', cure: null },
  'nothing-to-undo': { status: 409, title: 'There is nothing to take back', cure: null },
  'nothing-to-put-back': {
    status: 409,
    title: 'There is nothing to put back',
    cure: 'What was taken back can be put back as long as nothing else was done.',
  },
  'undo-overtaken': {
    status: 409,
    title: 'A later change touched the same',
    cure: 'Take the later one back first.',
  },
  'act-taken-back': {
    status: 409,
    title: 'What was done so far was taken back meanwhile, and the rest was left as it was',
    cure: null,
  },
  'has-frames': { status: 409, title: 'There are frames in it', cure: 'Move them elsewhere first.' },
} as const satisfies Record<string, WebProblem>;
