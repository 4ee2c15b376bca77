import type { AgreementStanding } from '../facts/index.ts';

/** What is said about pictures: on the client's page, and on the operator's. */
export const remarkLabels = {
  title: 'Remarks',
  none: 'Nothing was said about this picture yet.',
  add: 'Add a remark',
  addHelp: 'Or touch the picture where the remark belongs.',
  point: 'Where the remark belongs. Arrow keys move it, with Shift ten times as far.',
  pointAt: 'Point at the place the remark is about: click, or arrows (with Shift ten times as far) and Enter',
  onWhole: 'About the whole picture',
  onPoint: 'About the point that is marked',
  whole: 'Whole picture',
  text: 'Remark',
  answerText: 'Answer',
  answer: 'Answer',
  send: 'Send',
  cancel: 'Leave it',
  name: 'Your name',
  nameHelp: 'It stands beside what you say, and is kept on this device.',
  settle: 'Settled',
  reopen: 'Open again',
  settled: 'settled',
  forGuests: 'Show it to guests',
  inside: 'not for guests',
  waiting: 'Kept on this device; it is sent as soon as the station answers.',
  unsent: 'Not sent yet',
  tryAgain: 'Try again',
  throwAway: 'Throw away',
  lostLink:
    'Written on this device, and the station does not have it. It is kept here until another link for this job is opened on this device; then it is sent.',
  notShared: 'This picture is not shared any more. What you wrote is kept here.',
  shareTitle: 'Guests',
  shareByMark: 'by its mark',
  shareShown: 'see it',
  shareKeptBack: 'do not see it',
  elsewhere: 'Open on other frames',
  open: 'Nobody has settled these yet',
  toFrame: 'Show this frame',
  keyRemarks: 'Remarks of guests',
} as const;

/** Why what was written did not reach anybody, by the code of the refusal; others are told in the station's own words. */
export const unsentWords: Readonly<Record<string, string>> = {
  'not-found': remarkLabels.notShared,
  'picture-changed': 'The picture has changed since. Look at it again, and agree once more.',
  'name-taken':
    'Somebody agreed by this name already, on another device. Throw this away and agree again: by another name, or saying that it was you.',
  'nothing-to-agree': 'This shot has no picture to agree to any more.',
};

/** Agreement to a shot. */
export const agreementLabels = {
  /** Before a word given by the same name on another device is written over. */
  taken: (name: string): string =>
    `${name} has agreed already, on another device. Add something to your name if that was somebody else; if it was you, your word takes the place of that one.`,
  again: 'It was me: agree again',
  agree: 'I agree',
  question: 'Agree to this shot?',
  consequence: (names: readonly string[]): string =>
    names.length === 1
      ? `You agree to this picture as you see it now: ${names[0]}. You can take it back.`
      : `You agree to these ${names.length} pictures as you see them now: ${names.join(', ')}. You can take it back.`,
  /** `Mug: 2 pictures`. */
  of: (shot: string, pictures: number): string =>
    `${shot}: ${pictures === 1 ? '1 picture' : `${pictures} pictures`}`,
  withdraw: 'Take back',
  title: 'Agreed',
  sending: 'on its way',
} as const;

/** What an agreement is worth now. */
export const standingWords: Readonly<Record<AgreementStanding, string>> = {
  stands: 'to the picture as it is',
  'older-hero': 'older than the picture: another one is the hero now',
  'older-look': 'older than the picture: it looks otherwise now',
};

/** `Remarks 3`; the bare word where none is open. */
export function remarksButton(open: number): string {
  return open === 0 ? remarkLabels.title : `${remarkLabels.title} ${open}`;
}

/** `New remark by Ada:`, of several the newest. */
export function newWordsPhrase(count: number, name: string): string {
  return count === 1 ? `New remark by ${name}:` : `${count} new remarks, the last by ${name}:`;
}

/** `2 remarks`. */
export function remarkCount(count: number): string {
  return count === 1 ? '1 remark' : `${count} remarks`;
}

/** `Remark 2 by Ada`, for who does not see the pin. */
export function pinName(name: string, by: string, isSettled: boolean): string {
  return `Remark ${name} by ${by}${isSettled ? `, ${remarkLabels.settled}` : ''}`;
}

/** `Ada, 14:02`. */
export function saidBy(name: string, time: string): string {
  return `${name}, ${time}`;
}

/** Who, with the name of the link for the operator where it says more. */
export function speakerName({ name, link }: { readonly name: string; readonly link: string | null }): string {
  return link === null || link === '' || link === name ? name : `${name} (${link})`;
}
