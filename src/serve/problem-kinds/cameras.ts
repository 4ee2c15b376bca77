import type { WebProblem } from './web-problem.ts';

/** Cameras, their keys, and links. */
export const camerasProblems = {
  'bad-camera-name': {
    status: 400,
    title: 'That is no name for a camera',
    cure: 'Use 1 to 40 letters from a to z, digits and hyphens, such as cam2.',
  },
  'bad-allow-rule': {
    status: 400,
    title: 'That is no address a camera could come from',
    cure: 'Write 192.168.7.20, 192.168.7.0/24 or 3c:22:fb:01:02:03.',
  },
  'everywhere-and-more': {
    status: 400,
    title: 'One of these lets every address in, whatever else is allowed',
    cure: 'Leave it out, or leave all the others out.',
  },
  'private-key': {
    status: 400,
    title: 'That is a private key, which nobody but its owner should have',
    cure: 'Give the public half: the file that ends in .pub.',
  },
  'bad-key': {
    status: 400,
    title: 'That is no public key as OpenSSH writes it',
    cure: 'Give the one line of a .pub file, such as ssh-ed25519 AAAA… name, with nothing before it.',
  },
  'unknown-key-kind': {
    status: 400,
    title: 'A key of that kind cannot be checked here',
    cure: 'Use ed25519, ECDSA (nistp256, nistp384, nistp521) or RSA.',
  },
  'weak-key': {
    status: 400,
    title: 'RSA keys of 2048 to 16384 bits are taken',
    cure: 'Make a new one: ssh-keygen -t ed25519.',
  },
  'no-key': { status: 409, title: 'The camera has no such key', cure: 'Load its keys again.' },
  'too-many-keys': {
    status: 409,
    title: 'The camera has 16 keys already',
    cure: 'Remove one that is not used any more first.',
  },
  'camera-exists': {
    status: 409,
    title: 'There is a camera of this name already',
    cure: 'Choose another name, or change that one.',
  },
  'too-many-links': { status: 409, title: 'There are too many links', cure: 'End one that nobody uses.' },
  'too-many-cameras': { status: 409, title: 'There are too many cameras', cure: null },
} as const satisfies Record<string, WebProblem>;
