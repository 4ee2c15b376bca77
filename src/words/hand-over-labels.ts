import { sizePhrase, spanPhrase } from './phrases.ts';

const files = (count: number): string => (count === 1 ? '1 file' : `${count} files`);
const frames = (count: number): string => (count === 1 ? '1 frame' : `${count} frames`);
const are = (count: number): string => (count === 1 ? 'is' : 'are');

/** Names of things on the Hand-over page. */
export const handOverLabels = {
  title: 'Hand-over',
  titleOf: (job: string): string => `Hand-over of ${job}`,
  jobs: 'Of which job',
  allJobs: 'All jobs',
  next: 'What to do next',
  nothingNext: 'Nothing is left to do here.',
  lost: 'The station does not answer. What stands here may be old.',

  deliveries: 'Deliveries',
  noDeliveries: 'Nothing was delivered yet. Mark the frames, choose a specification below, and begin.',
  states: { running: 'being made', paused: 'waits', aborted: 'was ended', done: 'done' },
  doneWithGaps: 'done, not complete',
  gapsLeft: 'done, its gaps left as they are',
  leaveGaps: 'Leave it so',
  askAgain: 'Ask for what is missing again',
  gapsLeftOf: (title: string): string => `What is missing of ${title} is left so, and asked for no more.`,
  takeBack: 'Take that back',
  overOnes: (count: number): string =>
    count === 1 ? '1 earlier delivery that is over' : `${count} earlier deliveries that are over`,
  begun: (when: string): string => `Begun ${when}`,
  ended: (when: string): string => `ended ${when}`,
  made: (made: number, of: number): string => `${made} of ${files(of)}`,
  notMade: (count: number): string => (count === 1 ? '1 could not be made' : `${count} could not be made`),
  pause: 'Pause',
  goOn: 'Go on',
  end: 'End it',
  endSure: 'End it for good? What is made stays.',
  keepIt: 'Let it be',
  everyValue: 'What was ordered, and its files',
  everyValueOf: 'Every value of it',
  whatIsThere: 'Files and what is said of them',
  folder: 'Folder',
  destination: 'Goes to',
  inJobFolder: 'the job’s folder only',
  sendTo: 'Send to',
  manifest: 'List of contents',
  manifestFiles: 'manifest.json and manifest.csv in that folder',
  manifestLater: 'written when the last file is made',
  said: (count: number): string => (count === 1 ? '1 file with a remark' : `${count} files with remarks`),
  ofAll: 'Of all of them:',
  ofSome: (count: number): string => `Of ${count}:`,
  nothingSaid: 'Nothing has to be said of any file.',
  notDelivered: 'Not delivered',
  about: (title: string): string => `: ${title}`,

  contactSheet: 'Contact sheet (PDF)',
  report: 'Job report (PDF)',
  reportData: 'Job report (JSON)',
  sheetDrawn: 'A contact sheet is drawn',
  sheetFrames: (done: number, of: number | null): string =>
    of === null
      ? 'A contact sheet: its frames are counted …'
      : `A contact sheet: ${done} of ${of} frames drawn`,
  begin: 'New delivery',
  job: 'Job',
  specification: 'Specification',
  ordered: 'the job asks for it',
  marks: 'Frames marked',
  noJob: 'There is no job yet. Make one first, then mark its frames.',
  planning: 'It is looked what that would be …',
  plan: (count: number): string => `${frames(count)} would be delivered.`,
  planSaid: (count: number): string =>
    count === 0
      ? 'Nothing speaks against it.'
      : count === 1
        ? 'Of 1 something is to be said beforehand:'
        : `Of ${count} something is to be said beforehand:`,
  more: (count: number): string => `and ${count} more`,
  noMark: 'Choose at least one mark.',
  nothingMarked:
    'No frame of the job has a mark that is asked for. Mark frames on the Sheet page, or ask for other marks.',
  deliver: (count: number): string => `Deliver ${frames(count)}`,
  failed: 'That did not reach the station. Try again.',

  copies: 'Originals and copies',
  places: 'Second places',
  noPlace:
    'There is no second place. Start the station with --copy DIR, a folder on another disk: then everything is copied there.',
  notCounting: 'does not count: it is no other disk',
  away: 'is not there now',
  upToDate: 'holds everything',
  waiting: (count: number): string => `${files(count)} ${are(count)} not there yet`,
  readAgain: 'Read again',
  neverRead: 'Not read again yet.',
  lastRead: (when: string, count: number, bytes: number): string =>
    `All was read again ${when}: ${files(count)}, ${sizePhrase(bytes)}.`,
  originalsFine: 'Every original was as received.',
  originalsBad: (count: number): string =>
    count === 1 ? '1 original was not as received.' : `${count} originals were not as received.`,
  placeRead: (count: number, bad: number): string =>
    bad === 0 ? `${count} copies read, all as made` : `${count} copies read, ${bad} not as made`,
  placeNotRead: 'was away when all was read last',
  reading: (done: number, of: number): string => `Being read: ${done} of ${files(of)}`,
  readingBegins: 'The reading begins …',
  readingWaits: 'It rests while cameras or deliveries are at work, and goes on by itself.',
  readingSlow: 'Slowly, behind everything else.',
  badSoFar: (count: number): string => (count === 1 ? '1 found bad so far' : `${count} found bad so far`),
  due: (when: string): string => `The next reading begins by itself ${when}.`,
  notDue: 'It is read again only when somebody asks.',
  readNow: 'Read all now',
  readFull: 'Read at full pace',
  letRest: 'Stop reading',
  putBack: 'Put back from a second place',
  puttingBack: 'Putting back …',
  nothingToPutBack: 'No original is known not to be as received any more.',
  toGo: (ms: number): string => `about ${spanPhrase(ms)} to go`,

  strike: 'Strike check',
  toStrike: 'To the strike check',
  noOpenJob: 'No job is open.',

  card: 'Memory card',
  cardHere: 'Cards are checked on the station’s own computer only.',
  cardFolders: 'What may be checked',
  noCards:
    'No card is in. Put one into a reader of this computer; where it is not found, start the station with --card FOLDER.',
  look: 'Look again',
  check: 'Check it',
  checkAgain: 'Check again',
  why: { removable: 'removable disk', named: 'named at the start', watched: 'watched for' },
  checking: (done: number, of: number): string => `${done} of ${files(of)} read`,
  checkBegins: 'The card is being looked through …',
  stop: 'Stop',
  stopped: 'The check was stopped. It says nothing of this card.',
  wipe: 'May be wiped',
  wipeBecause: (count: number, bytes: number, at: string): string =>
    `${files(count)}, ${sizePhrase(bytes)}: at ${at} each was read from the card, from this computer and from another disk, with the same bytes. Nothing was deleted; wipe it in the camera.`,
  checkedAt: (at: string): string => `Checked at ${at}.`,
  keep: 'Keep the card',
  counts: { safe: 'here twice', once: 'here once', missing: 'not here', unread: 'not readable' },
  passedOver: (count: number): string =>
    `${count === 1 ? '1 name' : `${count} names`} that computers leave on cards, or links: not looked at.`,
  soundCopies: (count: number, folder: string): string =>
    `${count} sound ${count === 1 ? 'copy' : 'copies'} in ${folder}`,
  notSafe: 'What is not here twice',
  size: (bytes: number): string => sizePhrase(bytes),
  takeIn: (count: number): string => `Take in ${files(count)}`,
  takeInAfterCheck: 'To take in what is missing, check the card here first.',
  byCommand: 'Read by the command setside card.',
  asCamera: 'as files of',
  taking: (taken: number, of: number): string => `${taken} of ${files(of)} taken in`,
  taken: {
    running: 'They are copied; the card stays as it is.',
    done: 'Taken in. Once the second place holds them too, check the card again.',
    stopped: 'It was stopped. What was taken in stays; check again for the rest.',
    'card-gone': 'The card went away. What was taken in stays; put it back and check again for the rest.',
    'no-room': 'Nothing more can be kept on this disk. Make room, then check again.',
  },
  notTaken: (count: number): string =>
    count === 1 ? '1 file could not be taken in:' : `${count} files could not be taken in:`,
  notNoted: 'The outcome could not be written into the journal: the strike check does not know of it.',
} as const;
