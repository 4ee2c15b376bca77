import { durationPhrase, numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What a job report says of how its times are known. Codes `report.*`. */
export const reportSentences: SentenceTable = {
  'report.clock-ahead': (args) =>
    `${textArg(args, 'camera')}: a picture was here ${seconds(numberArg(args, 'seconds'))} before it was taken by that camera’s clock. It is ahead: none of its times from the shutter is counted. Set its clock, or say by how much it goes wrong.`,
  'report.clock-compared': (args) =>
    `${textArg(args, 'camera')}: its clock was compared with the station’s; times from the shutter may be wrong by ${seconds(numberArg(args, 'seconds'))}.`,
  'report.clock-said': (args) =>
    `${textArg(args, 'camera')}: somebody said how its clock goes; how exactly nobody knows.`,
  'report.clock-not-compared': (args) =>
    `${textArg(args, 'camera')}: nobody compared its clock with the station’s. As far as it goes wrong, so far are times from the shutter wrong. Photograph the clock slate once.`,
  'report.whole-seconds': (args) =>
    `${frames(numberArg(args, 'count'))} tell the shutter in whole seconds: their times may be up to 1 s too long.`,
  'report.zone-assumed': (args) =>
    `${frames(numberArg(args, 'count'))} tell no time zone: the station’s own was taken.`,
  'report.no-shutter': (args) => `${frames(numberArg(args, 'count'))} without a time of the shutter.`,
  'report.from-folder': (args) =>
    `${frames(numberArg(args, 'count'))} from a card or a folder: not counted, nobody waited for them.`,
};

function frames(count: number): string {
  return count === 1 ? '1 frame' : `${count} frames`;
}

function seconds(value: number): string {
  return durationPhrase(value * 1000);
}
