import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What the Hand-over page says is to be done next. */
export const handOverSentences: SentenceTable = {
  'hand.bad-originals': (args) =>
    `${several(args, 'original is', 'originals are')} not as received. Keep every card and copy. Put back from a second place what it holds: here, or by setside restore.`,
  'hand.bad-copies': (args) =>
    `${several(args, 'copy is', 'copies are')} not as made in ${textArg(args, 'folder')}. Run: setside verify --mend.`,
  'hand.delivery-waits': (args) => `The delivery ${textArg(args, 'title')} waits. Let it go on, or end it.`,
  'hand.delivery-gaps': (args) =>
    `${several(args, 'file', 'files')} of the delivery ${textArg(args, 'title')} ${numberArg(args, 'count') === 1 ? 'is' : 'are'} missing. See why, and deliver again or leave it so.`,
  'hand.card-missing': (args) =>
    `${several(args, 'file of the card is', 'files of the card are')} not here. Take them in.`,
  'hand.card-once': () =>
    'Not every file of the card is here twice. Keep the card, and check it again once the copies are made.',
  'hand.card-again': () =>
    'What the card held was taken in. Check the card again once the second place has it.',
  'hand.bag-failed': (args) =>
    `The package in ${textArg(args, 'folder')} did not come to its end. See why, and let it go on.`,
  'hand.bag-bad': (args) =>
    `The package in ${textArg(args, 'folder')} is not complete, or altered. See what was found.`,
  'hand.no-place': () => 'Everything lies on one disk only. Name a second place.',
  'hand.place-away': (args) => `The second place ${textArg(args, 'folder')} is not there. Put the disk back.`,
  'hand.copies-wait': (args) =>
    `${several(args, 'file waits', 'files wait')} for the second place ${textArg(args, 'folder')}. Leave both disks on.`,
  'hand.strike-open': (args) =>
    `The set stays: ${several(args, 'line of the strike check is', 'lines of the strike check are')} open.`,
  'hand.not-delivered': (args) =>
    `${textArg(args, 'job')} asks for the delivery ${textArg(args, 'title')}, and none was made.`,
  'hand.no-job': () => 'Make a job with its shots on the Job page.',
  'hand.no-frames': () => 'Let a camera send its frames, or check a card and take them in.',
  'hand.then-mark': () => 'Mark what is to be handed over, then choose a specification here.',
};

function several(args: Parameters<typeof numberArg>[0], one: string, more: string): string {
  const count = numberArg(args, 'count');
  return `${count} ${count === 1 ? one : more}`;
}
