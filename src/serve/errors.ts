import { SetsideError } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import { jobLimits } from '../job/index.ts';

/**
 * Every code that leaves by the web door, with its HTTP status, the title of its kind, and what a person can do.
 * Codes that other rooms raise are listed where they can reach a caller; any other becomes `internal`.
 * Statuses after RFC 9110 section 15 and, for 507, RFC 4918 section 11.5.
 */
export const webProblems = {
  'bad-request': { status: 400, title: 'The request cannot be read', cure: null },
  'bad-value': {
    status: 400,
    title: 'A value is not allowed here',
    cure: 'See /api/openapi.json for what is.',
  },
  'bad-cursor': { status: 400, title: 'The cursor is not known', cure: 'Begin again without "after".' },
  'operator-only': {
    status: 403,
    title: 'This page is for the operator',
    cure: 'Open it on the computer the station runs on, or ask the operator for a link.',
  },
  'link-needed': {
    status: 403,
    title: 'This needs a link from the operator',
    cure: 'Ask the operator for a link, and open that. One that has ended opens nothing any more.',
  },
  'encrypted-only': {
    status: 403,
    title: 'This link opens over an encrypted line only',
    cure: 'Open its address that begins with https.',
  },
  'ended-in-clear': {
    status: 403,
    title: 'This link crossed the network without encryption, so it has ended',
    cure: 'Ask the operator for a new one, and open its address that begins with https.',
  },
  'no-such-link': {
    status: 403,
    title: 'This link opens nothing, or it has ended',
    cure: 'Look whether all of it was typed, or ask the operator for a new one.',
  },
  'foreign-page': {
    status: 403,
    title: 'Another web page asked for this',
    cure: 'Open the station’s own page.',
  },
  'not-found': { status: 404, title: 'There is no such thing here', cure: null },
  'no-picture': { status: 404, title: 'There is no picture of this frame', cure: null },
  'method-not-allowed': { status: 405, title: 'This cannot be done here', cure: null },
  'request-timeout': { status: 408, title: 'The request took too long to arrive', cure: 'Try again.' },
  'region-outside': {
    status: 400,
    title: 'The region lies outside the picture',
    cure: 'The frame’s picture says its width and height.',
  },
  'no-look': {
    status: 400,
    title: 'No look of this hash is kept, or the frame takes none',
    cure: 'See /api/v1/looks for those that are kept. A picture that came finished, such as a JPEG without its raw, takes no look: let the camera send raws.',
  },
  'no-such-look': {
    status: 400,
    title: 'No look of this id is kept',
    cure: 'See /api/v1/looks for those that are.',
  },
  'bad-look': {
    status: 422,
    title: 'This is no look that can be read',
    cure: 'See docs/look.schema.json for what a look may say.',
  },
  'too-many-looks': {
    status: 409,
    title: `More than ${jobLimits.looksMax} versions of looks would be kept`,
    cure: 'Use one of those that are there.',
  },
  'bad-specification': {
    status: 422,
    title: 'This is no delivery specification that can be carried out',
    cure: 'See docs/delivery.schema.json for what one may say.',
  },
  'no-such-specification': {
    status: 400,
    title: 'No delivery specification has this name',
    cure: 'Use web-shop, print, social or archive, or send a whole one.',
  },
  'nothing-to-print': {
    status: 409,
    title: 'No frame of the job is to be printed',
    cure: 'Ask for other marks or another shot. On a copy for the client lie only frames that guests see: marked, and rendered.',
  },
  'bad-destination': {
    status: 400,
    title: 'Nothing can be sent to this place',
    cure: 'A folder is named from the root, and lies outside the folder of the station.',
  },
  'no-destination': {
    status: 400,
    title: 'There is no destination of this name',
    cure: 'See /api/v1/destinations for those that are; setside destination add makes one.',
  },
  'too-many-destinations': {
    status: 409,
    title: 'There are too many destinations',
    cure: 'Forget one that is not used any more.',
  },
  'too-many-sheets': {
    status: 409,
    title: 'There are too many metadata sheets',
    cure: 'Forget one that is not used any more.',
  },
  'nothing-to-deliver': {
    status: 409,
    title: 'No frame of the job has a mark that the specification asks for',
    cure: 'Mark frames on the Sheet page, or name frames in the call.',
  },
  'cannot-write-there': {
    status: 507,
    title: 'The folder of the deliveries cannot be written',
    cure: 'Make room on the disk of the station, or give its user the right to write there.',
  },
  'delivery-ended': {
    status: 409,
    title: 'The delivery has ended',
    cure: 'Begin a new one.',
  },
  'card-not-allowed': {
    status: 403,
    title: 'This folder is not read from the page',
    cure: 'Put the card into a reader, so that it is shown as a removable disk; or name the folder when the station starts: --card FOLDER; or check it with the command: setside card FOLDER.',
  },
  'no-card': {
    status: 409,
    title: 'The card is not there',
    cure: 'Put it in, and wait until the computer shows it.',
  },
  'card-busy': {
    status: 409,
    title: 'A card is being checked or taken in already',
    cure: 'Wait until that is done, or end it.',
  },
  'no-card-check': {
    status: 409,
    title: 'No check says what is missing',
    cure: 'Check the card first.',
  },
  'no-camera': {
    status: 400,
    title: 'There is no such camera, or it was ended',
    cure: 'See /api/v1/station for the cameras.',
  },
  'try-overtaken': {
    status: 409,
    title: 'A newer try took the place of this one',
    cure: null,
  },
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
    title: 'What was marked so far was taken back meanwhile, and the rest was left as it was',
    cure: null,
  },
  'has-frames': { status: 409, title: 'There are frames in it', cure: 'Move them elsewhere first.' },
  'bad-camera-name': {
    status: 400,
    title: 'That is no name for a camera',
    cure: 'Use 1 to 40 letters, digits and hyphens, such as cam2.',
  },
  'bad-allow-rule': {
    status: 400,
    title: 'That is no address a camera could come from',
    cure: 'Write 192.168.7.20, 192.168.7.0/24 or 3c:22:fb:01:02:03.',
  },
  'everywhere-and-more': {
    status: 400,
    title: 'One of these lets every address in, whatever else is allowed',
    cure: 'Leave it out, or leave all the others out.',
  },
  'private-key': {
    status: 400,
    title: 'That is a private key, which nobody but its owner should have',
    cure: 'Give the public half: the file that ends in .pub.',
  },
  'bad-key': {
    status: 400,
    title: 'That is no public key as OpenSSH writes it',
    cure: 'Give the one line of a .pub file, such as ssh-ed25519 AAAA… name, with nothing before it.',
  },
  'unknown-key-kind': {
    status: 400,
    title: 'A key of that kind cannot be checked here',
    cure: 'Use ed25519, ECDSA (nistp256, nistp384, nistp521) or RSA.',
  },
  'weak-key': {
    status: 400,
    title: 'RSA keys of 2048 to 16384 bits are taken',
    cure: 'Make a new one: ssh-keygen -t ed25519.',
  },
  'no-key': { status: 409, title: 'The camera has no such key', cure: 'Load its keys again.' },
  'too-many-keys': {
    status: 409,
    title: 'The camera has 16 keys already',
    cure: 'Remove one that is not used any more first.',
  },
  'camera-exists': {
    status: 409,
    title: 'There is a camera of this name already',
    cure: 'Choose another name, or change that one.',
  },
  'too-many-links': { status: 409, title: 'There are too many links', cure: 'End one that nobody uses.' },
  'too-many-cameras': { status: 409, title: 'There are too many cameras', cure: null },
  'still-arriving': {
    status: 409,
    title: 'The file is still arriving',
    cure: 'Wait until it has arrived or broken off.',
  },
  'version-changed': {
    status: 412,
    title: 'It has changed since it was loaded',
    cure: 'Load it again and repeat the change.',
  },
  'changed-meanwhile': {
    status: 409,
    title: 'Somebody has changed the same meanwhile',
    cure: 'Look at how it is now, and say again what you want.',
  },
  'too-large': { status: 413, title: 'The request is too large', cure: null },
  'too-long': { status: 414, title: 'The address is too long', cure: null },
  'not-json': { status: 415, title: 'The body must be application/json', cure: null },
  'bad-range': { status: 416, title: 'That part of the file does not exist', cure: null },
  'wrong-host': {
    status: 421,
    title: 'This station is reached by another name',
    cure: 'On this computer use http://localhost or http://127.0.0.1 with the port of the station; from another device the address that the operator gave.',
  },
  'headers-too-large': { status: 431, title: 'The headers are too large', cure: null },
  'too-many-tries': {
    status: 429,
    title: 'Too many links were tried',
    cure: 'Wait a minute, then open the link once more.',
  },
  'too-many-calls': {
    status: 429,
    title: 'That is more than one device may ask for',
    cure: 'Wait a moment.',
  },
  internal: {
    status: 500,
    title: 'Something went wrong in the station',
    cure: 'Try again; if it stays, look into the station’s log.',
  },
  'too-many-streams': {
    status: 503,
    title: 'Too many pages are open',
    cure: 'Close a page of the station that is not needed.',
  },
  busy: { status: 503, title: 'The station is busy with this', cure: 'Try again in a moment.' },
  stopping: { status: 503, title: 'The station is being stopped', cure: 'Start it again.' },
  'page-not-built': {
    status: 503,
    title: 'The page is not built yet',
    cure: 'Run "npm start" in the checkout: it builds what is missing.',
  },
  'disk-full': { status: 507, title: 'The disk is full', cure: 'Make room on the disk of the station.' },
} as const satisfies Record<string, WebProblem>;

export interface WebProblem {
  readonly status: number;
  readonly title: string;
  /** What a person can do, one sentence, or null where nothing helps. */
  readonly cure: string | null;
}

export type WebProblemCode = keyof typeof webProblems;

export function isWebProblemCode(code: string): code is WebProblemCode {
  return Object.hasOwn(webProblems, code);
}

/**
 * A refusal by the web door itself. Its message is written for the caller and may be shown to anybody, where the
 * message of any other error may name paths of this computer and stays in the log.
 */
export class Refusal extends SetsideError {
  declare readonly code: WebProblemCode;
  /** The station's own reason, where it gave one. */
  readonly finding: Finding | undefined;

  constructor(code: WebProblemCode, message: string, finding?: Finding) {
    super(code, message);
    this.finding = finding;
  }
}

/** Codes that {@link startWebDoor} rejects with. */
export const doorErrors = {
  'port-in-use': 'another program listens on the port',
  'port-forbidden': 'the system does not let an ordinary user open the port',
  'address-unknown': 'this computer has no such address',
} as const;

export type DoorErrorCode = keyof typeof doorErrors;
