import { sizePhrase } from './phrases.ts';

/** A place that deliveries are sent to, as far as it is put into words. */
export type PlaceSaid =
  | { readonly kind: 'folder'; readonly path: string }
  | {
      readonly kind: 'sftp';
      readonly host: string;
      readonly port: number;
      readonly user: string;
      readonly path: string;
    }
  | { readonly kind: 's3'; readonly bucket: string; readonly prefix: string; readonly region: string };

/** Names of things about destinations, on the Hand-over page. */
export const destinationLabels = {
  title: 'Destinations',
  none: 'No destination is known yet. Deliveries stay in the folder of their job.',
  elsewhere: 'Destinations are shown to the operator only.',
  add: 'Add a destination',
  name: 'Name',
  nameHelp: 'small letters, digits and hyphens',
  kind: 'What it is',
  kinds: {
    folder: 'A folder, such as a disk of the client',
    sftp: 'An SFTP server',
    s3: 'S3-compatible storage',
  },
  folderPath: 'Folder',
  folderHelp: 'from the root of the station’s computer; it has to be there',
  host: 'Server',
  port: 'Port',
  user: 'User',
  path: 'Folder there',
  pathHelp: 'a point is where the log-in leads',
  logInBy: 'Logs in by',
  password: 'Password',
  key: 'Private key',
  keyHelp: 'the text of the file, without a passphrase',
  bucket: 'Bucket',
  region: 'Region',
  endpoint: 'Address of the service',
  endpointHelp: 'https://…; empty: by the region',
  prefix: 'Goes before every name',
  accessKeyId: 'Access key id',
  secretKey: 'Secret access key',
  secretHelp: 'kept by the station, and never shown again',
  pathStyle: 'the bucket stands in the path of the address',
  secretAsBefore: 'empty: as it is now, unless the server, the user or the way in is another; never shown',
  noSecret: 'no secret is kept: say it under “Change it”',
  change: 'Change it',
  changing: (name: string): string => `Change ${name}`,
  saveChange: 'Keep the change',
  save: 'Add it',
  leave: 'Leave it',
  wrong: (field: string): string => `Look at “${field}” again: this cannot be right.`,
  nameTaken: 'There is a destination of this name. Choose another, or forget that one first.',
  test: 'Test it',
  testing: 'A small file is sent, read back and taken away again …',
  tested: 'The small file lay there whole, and was taken away again.',
  testFailed: 'It did not take the small file.',
  forget: 'Forget it',
  forgetSure: 'Forget it, with its secret? What was sent there stays there.',
  keepIt: 'Let it be',
  about: (name: string): string => `: ${name}`,
  secrets: {
    kept: 'secret kept by the station',
    environment: 'secret from the environment',
    command: 'secret from a program',
  },
  hostKey: 'Host key',
  hostKeyUnknown: 'host key not compared yet: nothing is sent there',
  compareFirst: 'Nobody has compared the server’s key yet: nothing was sent, and no log-in told.',
  showsKey: 'It shows this one:',
  sayKey: 'What whoever keeps the server says it is',
  sayKeyHelp: 'there: ssh-keygen -l -f /etc/ssh/ssh_host_ed25519_key.pub',
  sameKey: 'It is the same.',
  otherKey: 'It is not the same. Trust nothing, and ask whoever keeps the server.',
  trust: 'Trust this key',
  sent: (sent: number, of: number, bytes: number, bytesOf: number): string =>
    `${sent} of ${of === 1 ? '1 file' : `${of} files`} there, and compared; ${sizePhrase(bytes)} of ${sizePhrase(bytesOf)}`,
  notSent: (count: number): string => (count === 1 ? '1 file was not sent' : `${count} files were not sent`),
  why: 'Not sent, and why',
  sendAgain: 'Send again what was not sent',
  beingSent: 'being sent',
  triesAgain: 'It tries again by itself.',
  doneNotSent: 'done, not all sent',
  liesAt: (where: string): string => `at ${where}`,
} as const;

/** In a line; no secret is in it. */
export function placePhraseOf(place: PlaceSaid): string {
  switch (place.kind) {
    case 'folder':
      return `folder ${place.path}`;
    case 'sftp':
      return `SFTP, ${place.user}@${place.host}${place.port === 22 ? '' : `, port ${place.port}`}, folder ${place.path}`;
    case 's3':
      return `bucket ${place.bucket}${place.prefix === '' ? '' : `/${place.prefix}`}, ${place.region}`;
  }
}
