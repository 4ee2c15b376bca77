/** Names of things on the page: headings, switches, keys. Sentences are in the tables of findings. */
export const pageLabels = {
  arrivals: 'Arrivals',
  newest: 'Newest',
  shots: 'Shots of the day',
  demo: 'demo, all invented',
  verdicts: 'Verdicts',
  picture: 'Picture',
  switches: 'Switches',
  farView: 'Far view',
  dimSurround: 'Dim surround',
  cameraSheet: 'Camera sheet',
  links: 'Links',
  keys: 'Keys',
  close: 'Close',
  mark: 'Mark',
  shotOpen: 'not yet',
  shotChosen: 'hero',
  brokenOff: 'broken off',
  damaged: 'damaged',
  missing: 'missing',
  scale: 'How closely',
  closer: 'Closer',
  farther: 'Farther away',
  pixelForPixel: 'Pixel for pixel, 1:1',
  wholePicture: 'Whole',
  overview: 'The whole picture, and which part of it is seen',
  enterOnCamera: 'Enter on the camera',
  methodFtp: 'FTP',
  ftpsImplicit: 'FTPS, implicit',
  ftpsExplicit: 'FTPS, explicit',
  portNumber: 'port',
  certificate: 'Certificate for FTPS',
  certificateFile: 'Root certificate,',
  certificateName: 'Name',
  fingerprint: 'SHA-256',
  sftp: 'SFTP',
  hostKey: 'SFTP host key',
  address: 'Server address',
  user: 'User',
  password: 'Password',
  passwordHidden: 'ask the operator',
  passive: 'Passive mode',
  on: 'on',
  dataPorts: 'data ports',
  folder: 'Folder',
  folderTop: 'leave empty, or /',
  noAddress: 'this computer has no network address yet',
  doorsShut: 'none of the doors it may use is open',
  byNoDoor: 'no door: allow one below, or watch a folder for it (--watch)',
  watchedFolder: 'Watched folder',
  notWatched: 'not watched while the camera is ended',
  waitNoLonger: 'Wait no longer',
  waitNoLongerSure: 'Only the camera has the rest. What came stays on the disk.',
  keepWaiting: 'Keep waiting',
  house: 'What else needs a look',
  showFrame: 'Show it',
  inFull: 'in full',
  lately: 'Lately',
  expectsLegend: 'sends',
  expectsUnsaid: 'not said',
  rowTime: 'Row time',
  rowTimeWhat: 'What it is and who tells it',
  rowTimeHelp:
    'From one row of the sensor to the next under the electronic shutter: with it, stripes across a picture name the mains they come from. The maker or a test of the camera tells how long a frame is read, such as 15 ms: divide that by its rows. 15 000 µs ÷ 4000 rows = 3.75 µs.',
  rowTimeUnit: 'µs',
  rowTimeTaken: 'Taken.',
  rowTimeBad: 'A number above 0 and up to 1000 is wanted, or nothing.',
  notShootingNow: 'Not shooting now',
  notTaken: 'The station did not take that. Try again.',
  noAnswer:
    'No answer from the station: it is not known yet whether it took that. It shows when the line is back.',
  access: 'how it may come in',
  accessOnLine: 'Where each camera may come from, its ways in, its keys, a new password: on the Line page',
  accessEnded: 'ended, may not come in',
  allowFrom: 'May come from',
  allowEverywhere: 'everywhere',
  allowHelp:
    'An address (192.168.7.20), a network (192.168.7.0/24) or a hardware address (3c:22:fb:01:02:03), which stays when the router deals out another; several with commas.',
  comesBy: 'Comes in by',
  keysForSftp: 'Keys for SFTP',
  oneMoreKey: 'One more key',
  keyExample: 'ssh-ed25519 AAAA… name',
  keyGiven: 'The one line of a .pub file: the public half. By SFTP a camera with a key needs no password.',
  addKey: 'Add the key',
  removeKey: 'Remove',
  newPassword: 'New password',
  endCamera: 'Let it in no more',
  letInAgain: 'Let it in again',
  anotherCamera: 'One more camera',
  anotherCameraExample: 'its name, such as cam2',
  addCamera: 'Add',
  diary: 'What happened on the line, the last 30 days',
  diaryEmpty: 'Nothing yet.',
  diaryEarlier: 'Earlier',
  diaryFailed: 'The diary cannot be read now.',
  stranger: 'not logged in',
  letterKeys: 'Letter keys',
  keyEarlier: 'earlier frame',
  keyLater: 'later frame',
  keyFirst: 'first frame of the day',
  keyNewest: 'newest frame, and follow',
  keyVerdict: 'open a verdict',
  keyClose: 'close what lies open',
  keyHelp: 'this card',
  keyScale: 'closer, farther away',
  keyPixels: 'pixel for pixel, and back',
  keyWhole: 'the whole picture again',
  keyMove: 'move over the picture, when close',
} as const;

/** Ways a camera can come in, as cameras call them. */
export const doorNames = { ftp: 'FTP', ftps: 'FTPS', sftp: 'SFTP' } as const;

/** Kinds of SFTP host keys, as clients name them. */
export const hostKeyNames = { ed25519: 'ED25519', ecdsa: 'ECDSA', rsa: 'RSA' } as const;

/** Kinds of a camera's public keys. */
export const keyKindNames = { ...hostKeyNames, none: 'no key that lets anybody in' } as const;

/** What to do before the first frame, in three lines. */
export const firstSteps: readonly string[] = [
  'Join the camera to this computer’s network and enter what stands below.',
  'Switch the camera’s transfer of every new frame on.',
  'Press the shutter. The picture comes up here while it is still arriving.',
];

/** The same in the demo, where nobody has to do anything. */
export const demoSteps: readonly string[] = [
  'This is the demo: a pretend camera photographs a pottery that does not exist.',
  'It is drawing its first picture now. That can take a minute.',
  'Each picture comes up here while it is still arriving. Nothing has to be joined or entered.',
];

/** `1 frame`, `12 frames`. */
export function framesPhrase(count: number): string {
  return count === 1 ? '1 frame' : `${count} frames`;
}

/** `and 1 more`, after the first of several findings. */
export function andMorePhrase(count: number): string {
  return `and ${count} more`;
}

/** How a camera comes to trust the station. */
export const certificateSteps: string =
  'A camera that checks whom it talks to wants the root certificate: save it on the camera’s card, import it in the camera’s network menu, and compare the fingerprint. Once is enough; the station renews its own certificate by itself.';
