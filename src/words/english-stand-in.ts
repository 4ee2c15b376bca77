import { numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What the pretend camera is doing. Codes `stand-in.*` come from stand-in. */
export const standInSentences: SentenceTable = {
  'stand-in.rendering': (args) =>
    `The virtual set for the ${textArg(args, 'shot')} is being rendered: ${Math.round(numberArg(args, 'share') * 100)} %.`,
  'stand-in.first-picture': () =>
    'The pretend camera is drawing its first picture. That can take a minute; then it begins to shoot.',
  'stand-in.shot': (args) => {
    const name = textArg(args, 'name');
    const files = numberArg(args, 'files');
    const size = sizePhrase(numberArg(args, 'bytes'));
    return files > 1
      ? `${name.replace(/\.[^.]*$/, '')} is shot (${textArg(args, 'shot')}, ${files} files, ${size}).`
      : `${name} is shot (${textArg(args, 'shot')}, ${size}).`;
  },
  'stand-in.sending': (args) =>
    `${textArg(args, 'name')}: ${sizePhrase(numberArg(args, 'sentBytes'))} of ${sizePhrase(numberArg(args, 'bytes'))} sent.`,
  'stand-in.sent': (args) => `${textArg(args, 'name')} is acknowledged by the station.`,
  'stand-in.sent-again': (args) =>
    `${textArg(args, 'name')} is sent a second time (as ordered) and acknowledged by the station.`,
  'stand-in.broke-off': (args) =>
    `${textArg(args, 'name')} broke off after ${sizePhrase(numberArg(args, 'sentBytes'))} (${textArg(args, 'why')}).`,
  'stand-in.resuming': (args) =>
    `${textArg(args, 'name')} goes on after ${sizePhrase(numberArg(args, 'fromBytes'))}.`,
  'stand-in.done': (args) => {
    const frames = numberArg(args, 'frames');
    return frames === 1 ? 'One frame was shot.' : `${frames} frames were shot.`;
  },
  ...faultSentences(),
};

/** What each fault on demand does, for the help: value and range are said beside it. */
function faultSentences(): SentenceTable {
  const table = {
    cut: 'The line breaks when so much of the file has gone out; the camera sends it again.',
    duplicate: 'The same file is sent a second time.',
    clock: 'The clock of the camera is so many minutes ahead, or behind where the value is negative.',
    wrap: 'The counter of the camera comes round: this frame is 0001, the one before it 9999.',
    gap: 'So many numbers are missing before this frame, as if their files had never come.',
    strobe: 'The strobe does not fire.',
    shift: 'The subject stands so many pixels further to the right, or left where the value is negative.',
    soft: 'The focus is off: a blur of so many pixels standard deviation comes on top.',
    shake: 'The camera moves during the exposure, so many pixels.',
    tint: 'The light has this colour temperature instead of 6504 K.',
    exposure: 'The exposure is so many stops off, darker where the value is negative.',
    sensitivity: 'The sensitivity stands at this instead of 100.',
    'white-balance': 'The camera is left to choose the white balance itself.',
  };
  return Object.fromEntries(
    Object.entries(table).map(([name, sentence]) => [`stand-in.fault-${name}`, () => sentence]),
  );
}
