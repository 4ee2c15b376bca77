import { numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What the pretend camera is doing. Codes `stand-in.*` come from stand-in. */
export const standInSentences: SentenceTable = {
  'stand-in.rendering': (args) =>
    `The virtual set for the ${textArg(args, 'shot')} is being rendered: ${Math.round(numberArg(args, 'share') * 100)} %.`,
  'stand-in.shot': (args) =>
    `${textArg(args, 'name')} is shot (${textArg(args, 'shot')}, ${sizePhrase(numberArg(args, 'bytes'))}).`,
  'stand-in.sending': (args) =>
    `${textArg(args, 'name')}: ${sizePhrase(numberArg(args, 'sentBytes'))} of ${sizePhrase(numberArg(args, 'bytes'))} sent.`,
  'stand-in.sent': (args) => `${textArg(args, 'name')} is acknowledged by the station.`,
  'stand-in.broke-off': (args) =>
    `${textArg(args, 'name')} broke off after ${sizePhrase(numberArg(args, 'sentBytes'))} (${textArg(args, 'why')}).`,
  'stand-in.resuming': (args) =>
    `${textArg(args, 'name')} goes on after ${sizePhrase(numberArg(args, 'fromBytes'))}.`,
  'stand-in.done': (args) => {
    const frames = numberArg(args, 'frames');
    return frames === 1 ? 'One frame was shot.' : `${frames} frames were shot.`;
  },
};
