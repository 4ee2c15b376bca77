import { durationPhrase, numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What the speed of a camera's line means. */
export const lineSpeedSentences: SentenceTable = {
  'line-speed.measured': (args) => {
    const [files, speed] = [numberArg(args, 'files'), numberArg(args, 'bytesPerSecond')];
    const [slow, fast] = [rate(numberArg(args, 'slowest')), rate(numberArg(args, 'fastest'))];
    const on = files === 1 ? 'its newest file' : `its newest ${files} files`;
    const range = slow === fast ? '' : `, ${slow} to ${fast}`;
    return [
      `Measured on ${on}: ${rate(speed)} MB a second${range}.`,
      ...fileTimes(args),
      ...cable(args, speed),
    ].join(' ');
  },
};

type Args = Parameters<NonNullable<SentenceTable[string]>>[0];

/** What raw and JPEG take: first those that the camera sends. */
function fileTimes(args: Args): readonly string[] {
  const [raw, jpeg] = [sizePhrase(numberArg(args, 'rawBytes')), sizePhrase(numberArg(args, 'jpegBytes'))];
  const [rawTook, jpegTook] = [
    durationPhrase(numberArg(args, 'rawMs')),
    durationPhrase(numberArg(args, 'jpegMs')),
  ];
  const sendsRaw = textArg(args, 'rawFrom') === 'measured';
  const sendsJpeg = textArg(args, 'jpegFrom') === 'measured';
  const seen =
    args.firstViewMs === undefined
      ? ''
      : `; the preview in it is seen after ${durationPhrase(numberArg(args, 'firstViewMs'))}`;
  if (sendsJpeg) {
    const rest = sendsRaw
      ? `A raw of ${raw} takes ${rawTook}${seen}.`
      : `A raw would take ${rawTook} (${raw} assumed).`;
    return [`A JPEG of ${jpeg} takes ${jpegTook}.`, rest];
  }
  return [
    sendsRaw ? `A raw of ${raw} takes ${rawTook}${seen}.` : `A raw would take ${rawTook} (${raw} assumed).`,
    `Raw and a small JPEG, the JPEG sent first, would be seen after ${jpegTook} (${jpeg} assumed).`,
  ];
}

/** Nobody lays a cable for less than a third of the time. */
const worthACable = 0.66;

function cable(args: Args, speed: number): readonly string[] {
  const cableSpeed = numberArg(args, 'cableBytesPerSecond');
  if (speed > cableSpeed * worthACable) return [];
  const forIt = textArg(args, 'rawFrom') === 'measured' ? '' : ' for it';
  return [
    `A cable would take ${durationPhrase(numberArg(args, 'cableMs'))}${forIt} (${rate(cableSpeed)} MB a second assumed, half of gigabit Ethernet).`,
  ];
}

/** Megabytes a second, to a tenth. */
function rate(bytesPerSecond: number): string {
  return (bytesPerSecond / 1e6).toFixed(1);
}
