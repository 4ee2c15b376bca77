import type { Finding } from '../facts/index.ts';
import { lookPlaces } from './look-acts.ts';
import { purposeNames, questionName } from './names.ts';
import { numberArg, type SentenceTable, textArg, withoutExtension } from './phrases.ts';
import { sentence } from './sentences.ts';

/**
 * What was done, in the few words that stand behind “Undo:”: `moved QMST0007 to Jug`. No full stop; a finding that has no
 * words of this kind is said as its sentence.
 */
export function actPhrase(what: Finding): string {
  const make = phrases[what.code];
  return make === undefined ? sentence(what).replace(/\.$/, '') : make(what.args);
}

const phrases: SentenceTable = {
  'job.made': (args) => `made job “${textArg(args, 'job')}”`,
  'job.changed': (args) => `changed job “${textArg(args, 'job')}”`,
  'job.opened': (args) => `opened job “${textArg(args, 'job')}”`,
  'job.laid-aside': (args) => `laid aside job “${textArg(args, 'job')}”`,
  'job.closed': (args) => `closed job “${textArg(args, 'job')}”`,
  'job.limits-changed': (args) => `changed the tolerances of ${textArg(args, 'job')}`,
  'job.shot-current': (args) => `went on to ${textArg(args, 'shot')}`,
  'job.no-shot-current': () => 'shooting no shot now',
  'job.shot-added': (args) => `added the shot ${textArg(args, 'name')}`,
  'job.shot-changed': (args) => `changed the shot ${textArg(args, 'shot')}`,
  'job.shot-taken-away': (args) => `took ${textArg(args, 'shot')} from the list`,
  'job.shot-brought-back': (args) => `brought ${textArg(args, 'shot')} back to the list`,
  'job.shots-ordered': () => 'put the shots in order',
  'job.list-taken-in': (args) => `took in a list of ${numberArg(args, 'count')} lines`,
  'job.layout': (args) => `new layout of ${textArg(args, 'shot')}`,
  'job.baseline': (args) => `new baseline of ${textArg(args, 'shot')} from ${frameName(args)}`,
  'job.scale': (args) => `told the scale of ${textArg(args, 'shot')}`,
  'job.scale-gone': (args) => `took back the scale of ${textArg(args, 'shot')}`,
  'job.last-number': (args) => `said that ${textArg(args, 'camera')} ends at ${numberArg(args, 'counter')}`,
  'job.last-number-gone': (args) => `took back the last number of ${textArg(args, 'camera')}`,
  'job.explained': (args) => `${textArg(args, 'name')} accepted a line of the strike check`,
  'job.explained-gone': () => 'opened a line of the strike check again',
  'job.signed': (args) => `${textArg(args, 'name')} signed the strike check`,
  'job.signature-gone': () => 'took back the signature of the strike check',
  'job.new-target': (args) => `new target from ${frameName(args)}`,
  'job.target-gone': (args) => `let the target in ${frameName(args)} count no longer`,
  'job.baseline-removed': (args) => `took the baseline of ${textArg(args, 'shot')} from ${frameName(args)}`,
  'job.frame-changed': (args) => `changed ${frameName(args)}`,
  'job.frame-marked': (args) =>
    textArg(args, 'mark') === 'none'
      ? `took the mark from ${frameName(args)}`
      : `marked ${frameName(args)} ${textArg(args, 'mark')}`,
  'job.frames-marked': (args) =>
    textArg(args, 'mark') === 'none'
      ? `took the mark from ${numberArg(args, 'count')} frames`
      : `marked ${numberArg(args, 'count')} frames ${textArg(args, 'mark')}`,
  'job.shot-frames-ordered': (args) => `put the chosen frames of ${textArg(args, 'shot')} in order`,
  'job.frame-purpose': (args) => `${frameName(args)} is: ${purposeOf(args)}`,
  'job.frame-spot': (args) => `pointed out a spot on ${frameName(args)}`,
  'job.frame-no-spot': (args) => `took back the spot on ${frameName(args)}`,
  'job.frame-look': (args) => `gave ${frameName(args)} the look ${textArg(args, 'look')}`,
  'job.frame-no-look': (args) => `took back the look of ${frameName(args)}`,
  'job.look-saved': (args) => `saved the look ${textArg(args, 'look')}`,
  'job.look-laid-aside': (args) => `laid the look ${textArg(args, 'look')} aside`,
  'job.look-put-back': (args) => `put the look ${textArg(args, 'look')} back`,
  'job.look-used': (args) => `gave ${lookPlaces(args)} the look ${textArg(args, 'look')}`,
  'job.frame-to-shot': (args) => `moved ${frameName(args)} to ${textArg(args, 'shot')}`,
  'job.frames-to-shot': (args) => `moved ${numberArg(args, 'count')} frames to ${textArg(args, 'shot')}`,
  'job.frames-to-no-shot': (args) => `took ${numberArg(args, 'count')} frames out of their shots`,
  'job.frame-to-no-shot': (args) => `took ${frameName(args)} out of its shot`,
  'job.frame-to-job': (args) => `moved ${frameName(args)} to job ${textArg(args, 'job')}`,
  'job.frame-to-tray': (args) => `moved ${frameName(args)} to the tray`,
  'job.frames-taken-in': (args) => {
    const count = numberArg(args, 'count');
    return `moved ${count === 1 ? '1 frame' : `${count} frames`} to job ${textArg(args, 'job')}`;
  },
  'job.frame-shown': (args) => `showed ${frameName(args)} to guests`,
  'job.frame-kept-back': (args) => `kept ${frameName(args)} back from guests`,
  'job.frame-share-by-mark': (args) => `let the mark of ${frameName(args)} say whether guests see it`,
  'told.agreed': (args) => `agreed to ${textArg(args, 'shot')}`,
  'told.agreement-withdrawn': () => 'took back a word on a shot',
  'told.remark-made': (args) => `remarked on ${frameName(args)}`,
  'told.remark-answered': (args) => `answered a remark on ${frameName(args)}`,
  'told.remark-settled': (args) => `settled a remark on ${frameName(args)}`,
  'told.remark-opened': (args) => `opened a remark on ${frameName(args)} again`,
  'told.frames-changed': (args) => `changed ${numberArg(args, 'count')} frames`,
  'job.agreed': (args) => `noted that ${textArg(args, 'name')} agrees to ${textArg(args, 'shot')}`,
  'job.agreement-withdrawn': (args) =>
    `took back that ${textArg(args, 'name')} agrees to ${textArg(args, 'shot')}`,
  'job.accepted': (args) =>
    `${textArg(args, 'name')} accepted ${questionName(textArg(args, 'question'))} of ${withoutExtension(textArg(args, 'frame'))}`,
  'job.acceptance-withdrawn': (args) =>
    `took back the acceptance of ${questionName(textArg(args, 'question'))} of ${withoutExtension(textArg(args, 'frame'))}`,
};

function frameName(args: Finding['args']): string {
  return withoutExtension(textArg(args, 'name'));
}

function purposeOf(args: Finding['args']): string {
  const purpose = textArg(args, 'purpose');
  const known = Object.entries(purposeNames).find(([name]) => name === purpose);
  return known?.[1] ?? purpose;
}
