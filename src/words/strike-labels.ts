import type { Agreement, StrikeCost } from '../facts/index.ts';

/** What a group of open lines is called, by what it would cost to strike all the same. */
export const strikeCostNames: Readonly<Record<StrikeCost, string>> = {
  reshoot: 'Costs a reshoot',
  card: 'May still lie on a card: keep the card',
  word: 'Somebody’s word',
  copy: 'In one place only',
};

export const agreementNames: Readonly<Record<Agreement, string>> = {
  given: 'agreed',
  older: 'agreed to another picture',
  missing: 'not agreed yet',
};

/** Names of things on the strike sheet. */
export const strikeLabels = {
  title: 'Strike check',
  titleOf: (job: string): string => `Strike check of ${job}`,
  ready: 'Everything that could be checked is in order.',
  notReady: (lines: number): string =>
    lines === 1
      ? 'Leave the set standing: 1 line is open.'
      : `Leave the set standing: ${lines} lines are open.`,
  signedBy: (name: string, when: string): string => `Signed by ${name}, ${when}.`,
  reopened: (name: string, when: string): string =>
    `Signed by ${name}, ${when}; something has changed since, so it is open again.`,
  caution:
    'The check says what the station could verify. Whether a card may be wiped it cannot say: that is the card check’s, which reads the card.',
  acceptedTitle: 'Accepted by name',
  acceptedBy: (name: string, reason: string): string => `${name}: ${reason}`,
  shots: 'Shots',
  heroes: (there: number, wanted: number): string =>
    wanted === 1 ? 'Hero' : `Heroes, ${there} of ${wanted}`,
  selects: (there: number, wanted: number): string => `Selects, ${there} of ${wanted}`,
  client: 'Client',
  inOrder: 'in order',
  openLines: (count: number): string => (count === 1 ? '1 line open' : `${count} lines open`),
  cameras: 'Cameras',
  framesHere: (count: number): string => (count === 1 ? '1 frame' : `${count} frames`),
  acceptedShort: (name: string): string => `accepted by ${name}`,
  newest: (name: string): string => `the last one here ${name}`,
  lastOnCamera: 'Last number on the camera',
  lastNumberHelp: 'As the camera shows it when its last frame is played back.',
  saidByCard: (when: string): string => `found by the card check, ${when}`,
  saidBy: (by: string, when: string): string => `${by}, ${when}`,
  noNumbers: 'names without numbers',
  save: 'Say it',
  takeBack: 'Take it back',
  yourName: 'Name',
  reason: 'Reason',
  takeUpon: 'Accept it',
  takeUponHelp: 'By name and with a reason; both stand on the sheet.',
  showFrame: 'Show the frame',
  showJob: 'To the shot list',
  showSheet: 'To the Sheet, to mark',
  toNumber: 'Say the number',
  sign: 'Sign',
  signTitle: 'Signature',
  signHelp: 'Whoever signs says that the set may come down. What changes afterwards opens the check again.',
  sayLast: 'The last number is said with --last, such as --last cam1=0412.',
  notSigned: (name: string, open: number): string =>
    `Not signed by ${name}: ${open === 1 ? 'one line is' : `${open} lines are`} still open. Mend or accept each, then sign again.`,
  signWhenReady: 'It can be signed once no line is open.',
  print: 'Print',
  back: 'Back to the set',
  toJob: 'Job',
  checked: (when: string): string => `Checked ${when}`,
  onPaperName: 'Name',
  onPaperDate: 'Date, time',
  onPaperSignature: 'Signature',
  loading: 'The check is being made …',
  noJob: 'There is no such job, or none is open.',
  failed: 'The check could not be made. Try again in a moment.',
  notSaid: 'That did not reach the station. Try again.',
} as const;
