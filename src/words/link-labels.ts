/** Words of the pages that other devices see, and of the card that lets them in. */

/** The card on the Set page. */
export const linkLabels = {
  title: 'Who may look in',
  make: 'Make a link',
  forWhom: 'For',
  forWhomExample: 'such as phone on the tripod',
  may: 'May',
  until: 'Ends after',
  job: 'Job',
  noJobs: 'There is no job to show yet: make one first.',
  shots: 'Shots',
  allShots: 'all of the job',
  scan: 'Scan this with the device, or type the address:',
  onceOnly: 'The address is shown this once. Whoever has it comes in until the link ends.',
  endedNow: (name: string, devices: number): string =>
    devices === 0
      ? `The link “${name}” has ended. Nobody was in by it.`
      : `The link “${name}” has ended: ${devices === 1 ? 'the one who was in by it is' : `the ${devices} who were in by it are`} out.`,
  clear: 'For a browser that lets nobody past the certificate: without encryption',
  mend: 'setside line --mend shows the lines that open it, asks, and runs them.',
  clearWarning: 'Without encryption everybody on this network can read along.',
  code: 'Code to scan',
  done: 'Done',
  living: 'Links',
  none: 'Nobody yet.',
  end: 'End',
  ends: 'ends',
  device: 'device',
  devices: 'devices',
  neverSeen: 'not seen since the start',
  lastSeen: 'last seen',
  failed: 'The links cannot be read now.',
  advice:
    'The device has to be in the same network. Its browser asks once whether to trust the station; it does not ask where the root certificate is imported (camera sheet).',
} as const;

/** What each kind of link lets somebody do. */
export const scopeWords = {
  pocket: 'see frames and verdicts, mark, change the shot',
  guest: 'see the chosen pictures of a job, remark, agree',
  operator: 'do everything, as on this computer',
} as const;

/** What the link of a guest shows; no shots named are all of them. */
export function sharedWords(job: string, shots: number): string {
  const part = shots === 0 ? '' : shots === 1 ? 'one shot of ' : `${shots} shots of `;
  return `see the chosen pictures of ${part}job ${job}`;
}

/** How long a link lasts, minutes. */
export const linkLengths: readonly { readonly minutes: number; readonly words: string }[] = [
  { minutes: 4 * 60, words: '4 hours' },
  { minutes: 12 * 60, words: '12 hours' },
  { minutes: 3 * 24 * 60, words: '3 days' },
  { minutes: 14 * 24 * 60, words: '14 days' },
];

/** The page a link leads to first. */
export const enterLabels = {
  title: 'Coming in',
  wait: 'One moment.',
  token: 'Link',
  tokenHelp: 'The part of the address behind the #: seven groups of four letters and digits.',
  enter: 'Come in',
  clear: 'This line is not encrypted: everybody on this network can read along.',
  secure: 'Go on encrypted',
  secureHelp:
    'The browser does not know the station’s certificate and will warn. Importing the root certificate below ends that.',
  goOn: 'Go on without encryption',
  certificate: 'Root certificate',
  certificateSteps:
    'So that the browser knows the station: save the certificate, then let the phone trust it. Many phones ask for it under the settings for security or for profiles, as a certificate authority; some ask to switch the trust on afterwards. It vouches for private networks only. Take it off again when the job is over.',
  unreachable: 'The station does not answer. Is this device in its network?',
} as const;

/** The phone on the tripod. */
export const pocketLabels = {
  title: 'Pocket',
  previousShot: 'Previous shot',
  nextShot: 'Next shot',
  noShot: 'No shot',
  noJob: 'No job is open',
  earlier: 'Earlier frame',
  later: 'Later frame',
  newest: 'Newest',
  moveTo: 'Move to another shot',
  moveTitle: 'This frame belongs to',
  takeBack: 'Take back',
  vibrate: 'Vibrate',
  leave: 'Leave',
  notTaken: 'The station did not take that. Try again.',
  meanwhile: (name: string): string =>
    `Somebody else has chosen for ${name} meanwhile: it is as they left it. Tap again if you want it otherwise.`,
  nothingYet: 'No frame yet. It comes up here by itself.',
  nothingInJob: (job: string): string =>
    `No frame of ${job} yet. It comes up here by itself; frames of other jobs, and those that lie in no job, are not shown here.`,
  clear: 'Not encrypted: others on this network can read along, and the screen may go dark.',
  shutOut: 'This link has ended',
  shutOutHelp: 'Ask the operator for a new one.',
} as const;

/** Trying the cameras' way with a phone. */
export const rehearsalLabels = {
  button: 'Line',
  title: 'Try the way',
  lead: 'Hold the phone beside the camera, in the camera’s network. It sends the station two megabytes that are thrown away, and says what that tells about the camera’s way.',
  start: 'Try it',
  running: 'Sending …',
  failed: 'Nothing came through: the station was not reached, or took too long.',
} as const;

/** The client's page. */
export const guestLabels = {
  title: 'Pictures',
  nothingYet: 'No picture yet. They come up here by themselves as soon as some are chosen.',
  gone: 'This job is not there any more.',
  without: 'Other pictures',
  contactSheet: 'These pictures on paper (PDF)',
  leave: 'Leave',
  close: 'Back to all',
  earlier: 'Picture before',
  later: 'Picture after',
} as const;

/** Asked before a device goes. */
export const leaveLabels = {
  question: 'Leave the station?',
  consequence: 'This device shows nothing any more until it comes in by its link again.',
  go: 'Leave now',
} as const;

/** `3 of 12`. */
export function placePhrase(at: number, of: number): string {
  return `${at} of ${of}`;
}
