import {
  type Args,
  isSeveral,
  numberArg,
  type SentenceTable,
  sharePhrase,
  sizePhrase,
  textArg,
  withoutExtension,
} from './phrases.ts';

/** What the page itself has to say: of the station, the connection, and where a shown picture comes from. */
export const pageSentences: SentenceTable = {
  'page.connecting': () => 'Looking for the station.',
  'page.connection-lost': (args) =>
    `The station has not answered since ${textArg(args, 'since')}. This page comes back by itself.`,
  'page.not-understood': () =>
    'The station speaks a newer version than this page. Load the page again to go on.',
  'page.shut-out': () => 'This link has ended. Ask the operator for a new one.',
  'page.marked-meanwhile': (args) =>
    `Somebody else has marked ${textArg(args, 'name')} meanwhile: it is as they left it. Look at it, and mark it again if you want it otherwise.`,
  'page.mark-not-kept': (args) =>
    `The mark of ${textArg(args, 'name')} was not taken by the station. Set it again.`,
  'page.nothing-yet': () => 'No frame has arrived yet.',
  'page.no-camera-yet': () => 'No camera has reached this station yet.',
  'page.demo-drawing': () => 'The pretend camera is drawing its first picture.',
  'page.no-job': () => 'No job is open: frames go to the tray “unsorted”.',
  'page.no-shots': () => 'This job has no shots yet.',
  'page.one-place': () =>
    'Every frame is in one place only: no second place is set (--copy with a folder on another disk).',
  'page.broken-off': (args) =>
    isSeveral(args)
      ? `${textArg(args, 'name')} broke off and are not all here: send them again from the camera.`
      : `${textArg(args, 'name')} broke off and is not all here: send it again from the camera.`,
  'page.broken-off-folder': (args) =>
    isSeveral(args)
      ? `${textArg(args, 'name')} broke off and are not all here: they are copied anew by themselves as soon as their card or folder can be read.`
      : `${textArg(args, 'name')} broke off and is not all here: it is copied anew by itself as soon as its card or folder can be read.`,
  'page.rail-broken-off': (args) => `Broken off ${reachPhrase(args)}.`,
  'page.rail-damaged': (args) => `Cut short ${reachPhrase(args)}.`,
  'page.incoming-idle': (args) =>
    `${sizePhrase(numberArg(args, 'bytes'))} in incoming/ belong to no frame and stay until you move them; setside verify says why.`,
  'page.disk-filling': (args) =>
    `The disk is filling: room for about ${numberArg(args, 'frames')} more frames.`,
  'page.disk-full': () => 'The disk is full: every new frame is refused. Make room now.',
  'page.disk-nearly-full': (args) =>
    `The disk is nearly full: room for about ${numberArg(args, 'frames')} more frames. Make room now.`,
  'page.first-view': (args) => {
    const percent = numberArg(args, 'percent');
    return percent > 0
      ? `From the camera’s preview, ${percent} % arrived.`
      : 'From the camera’s preview, while it arrives.';
  },
  'page.first-view-broken-off': (args) => {
    const percent = numberArg(args, 'percent');
    return percent > 0
      ? `From the camera’s preview; it broke off at ${percent} %.`
      : 'From the camera’s preview; it broke off.';
  },
  'page.first-view-whole': () => 'From the camera’s preview, until it is rendered.',
  'page.preview-only': () => 'From the camera’s preview.',
  'page.rendered-raw': () => 'Rendered from the raw.',
  'page.rendered-on-target': (args) =>
    `Rendered from the raw, balanced on the target ${withoutExtension(textArg(args, 'name'))}.`,
  'page.rendered-jpeg': () => 'The camera’s own JPEG.',
  'page.rendered-jpeg-only': (args) =>
    `The camera’s own JPEG, without “${textArg(args, 'look')}”: looks are put on raws only.`,
  'page.rendered-raster': () => 'Shown as it came.',
  'page.on-its-way': (args) => `${textArg(args, 'name')} is on its way.`,
  'page.no-picture-yet': () => 'There is nothing to see of it yet.',
  'page.picture-waits': () => 'The picture has not come yet.',
  'page.being-rendered': () => 'It is here and is being rendered.',
  'page.picture-loads': () => 'It is here; its picture is being made ready.',
  'page.counter-gap': (args) => {
    const count = numberArg(args, 'count');
    const from = textArg(args, 'from');
    return count === 1
      ? `Number ${from} has not arrived.`
      : `Numbers ${from} to ${textArg(args, 'to')} have not arrived.`;
  },
  'page.camera-clock': (args) =>
    `The clocks do not agree: the camera’s says ${textArg(args, 'shutter')} of a frame that came at ${textArg(args, 'arrived')}.`,
  'page.came-late': (args) =>
    `The camera’s clock says ${textArg(args, 'shutter')}; the frame came at ${textArg(args, 'arrived')}.`,
  'page.not-told': () => 'Not told.',
  'page.colour-space': (args) => `Shown in ${textArg(args, 'space')}.`,
};

/** How far a file came: in per cent where it is known how much it should be. */
function reachPhrase(args: Args): string {
  const [bytes, expected] = [numberArg(args, 'bytes'), numberArg(args, 'expectedBytes')];
  return expected > 0 ? `at ${sharePhrase(bytes, expected)}` : `after ${sizePhrase(bytes)}`;
}
