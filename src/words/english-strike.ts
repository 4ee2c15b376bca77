import { judgementNames, questionName } from './names.ts';
import { type Args, numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What the strike check says. Codes `strike.*`. */
export const strikeSentences: SentenceTable = {
  'strike.no-shots': (args) =>
    `Job ${textArg(args, 'job')} lists no shot: nobody has said what it has to bring home.`,
  'strike.no-frames': (args) => `“${textArg(args, 'shot')}” has no frame yet.`,
  'strike.no-hero': (args) =>
    numberArg(args, 'wanted') === 1
      ? `“${textArg(args, 'shot')}” has no hero.`
      : `“${textArg(args, 'shot')}” has ${numberArg(args, 'marked')} of ${numberArg(args, 'wanted')} heroes.`,
  'strike.too-few-selects': (args) =>
    `“${textArg(args, 'shot')}” has ${numberArg(args, 'marked')} of ${numberArg(args, 'wanted')} selects.`,
  'strike.verdict-bad': (args) => verdict(args, judgementNames.bad),
  'strike.verdict-unknown': (args) => verdict(args, judgementNames.unknown),
  'strike.verdict-doubt': (args) => verdict(args, 'in doubt'),
  'strike.no-target': (args) =>
    `${textArg(args, 'name')} of “${textArg(args, 'shot')}”: no colour target was photographed in this light before it.`,
  'strike.word-missing': (args) => `“${textArg(args, 'shot')}”: the client has not agreed yet.`,
  'strike.word-older': (args) =>
    `“${textArg(args, 'shot')}”: the client agreed to another picture, or to this one as it was before.`,
  'strike.damaged': (args) =>
    `${textArg(args, 'name')} of ${textArg(args, 'camera')} is damaged, and no whole one of its name came.`,
  'strike.broken-off': (args) =>
    `${textArg(args, 'name')} of ${textArg(args, 'camera')} broke off on its way.`,
  'strike.arriving': (args) => `${filesOf(numberArg(args, 'count'))} on the way.`,
  'strike.gap': (args) =>
    `${textArg(args, 'camera')}: ${numbersOf(args)} never came, though later frames did.`,
  'strike.numbers-missing': (args) =>
    `${textArg(args, 'camera')}: ${numbersOf(args)} never came, the last by the number that the camera shows.`,
  'strike.number-wanted': (args) =>
    `${textArg(args, 'camera')}: no later frame shows it if the last ones never came. The last one here is ${textArg(args, 'name')}: say the last number that the camera shows.`,
  'strike.number-behind': (args) =>
    `${textArg(args, 'camera')}: its last number was said to be ${four(numberArg(args, 'said'))}, and ${textArg(args, 'name')} is here. Read it off once more.`,
  'strike.no-numbers': (args) =>
    `${textArg(args, 'camera')}: ${framesAre(numberArg(args, 'count'))} without a number in the name, so nothing shows whether one is missing. Count them on the card.`,
  'strike.not-copied': (args) => `${framesAre(numberArg(args, 'count'))} on one disk only.`,
  'strike.no-second-place': (args) =>
    `${framesAre(numberArg(args, 'count'))} on one disk only, and there is no second place that counts.`,
};

/** `Numbers 12 to 14` as a camera writes them. */
function numbersOf(args: Args): string {
  const from = four(numberArg(args, 'from'));
  const to = four(numberArg(args, 'to'));
  return from === to ? `number ${from}` : `numbers ${from} to ${to} (${numberArg(args, 'count')})`;
}

function four(counter: number): string {
  return String(counter).padStart(4, '0');
}

function framesAre(count: number): string {
  return count === 1 ? '1 frame is' : `${count} frames are`;
}

function filesOf(count: number): string {
  return count === 1 ? '1 file is' : `${count} files are`;
}

function verdict(args: Args, judged: string): string {
  const { name, shot, question } = {
    name: textArg(args, 'name'),
    shot: textArg(args, 'shot'),
    question: questionName(textArg(args, 'question')),
  };
  return `${name} of “${shot}”: ${question} is ${judged}.`;
}
