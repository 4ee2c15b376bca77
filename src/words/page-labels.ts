/** Names of things on the page: headings, switches, keys. Sentences are in the tables of findings. */
export const pageLabels = {
  arrivals: 'Arrivals',
  newest: 'Newest',
  shots: 'Shots of the day',
  verdicts: 'Verdicts',
  picture: 'Picture',
  switches: 'Switches',
  farView: 'Far view',
  dimSurround: 'Dim surround',
  cameraSheet: 'Camera sheet',
  keys: 'Keys',
  close: 'Close',
  mark: 'Mark',
  shotOpen: 'not yet',
  shotChosen: 'hero',
  brokenOff: 'broken off',
  damaged: 'damaged',
  missing: 'missing',
  enterOnCamera: 'Enter on the camera',
  method: 'Transfer',
  methodFtp: 'FTP',
  sftpPort: 'Port for SFTP',
  hostKey: 'Its host key',
  address: 'Server address',
  port: 'Port',
  user: 'User',
  password: 'Password',
  passwordHidden: 'ask the operator',
  passive: 'Passive mode',
  on: 'on',
  folder: 'Folder',
  folderTop: 'leave empty, or /',
  noAddress: 'this computer has no network address yet',
  doorShut: 'the FTP door is shut',
  lately: 'Lately',
  expectsLegend: 'sends',
  expectsUnsaid: 'not said',
  notShootingNow: 'Not shooting now',
  notTaken: 'The station did not take that. Try again.',
  letterKeys: 'Letter keys',
  keyEarlier: 'earlier frame',
  keyLater: 'later frame',
  keyFirst: 'first frame of the day',
  keyNewest: 'newest frame, and follow',
  keyVerdict: 'open a verdict',
  keyClose: 'close what lies open',
  keyHelp: 'this card',
} as const;

/** What to do before the first frame, in three lines. */
export const firstSteps: readonly string[] = [
  'Join the camera to this computer’s network and enter what stands below.',
  'Switch the camera’s transfer of every new frame on.',
  'Press the shutter. The picture comes up here while it is still arriving.',
];

/** `1 frame`, `12 frames`. */
export function framesPhrase(count: number): string {
  return count === 1 ? '1 frame' : `${count} frames`;
}
