import type { WebProblem } from './web-problem.ts';

/** What the station cannot do now, and its bounds. */
export const stationProblems = {
  'still-arriving': {
    status: 409,
    title: 'The file is still arriving',
    cure: 'Wait until it has arrived or broken off.',
  },
  'no-original': {
    status: 404,
    title: 'No original is kept under that name',
    cure: 'Name it by its path below the home, or by the name of its file.',
  },
  'version-changed': {
    status: 412,
    title: 'It has changed since it was loaded',
    cure: 'Load it again and repeat the change.',
  },
  'changed-meanwhile': {
    status: 409,
    title: 'Somebody has changed the same meanwhile',
    cure: 'Look at how it is now, and say again what you want.',
  },
  'too-large': { status: 413, title: 'The request is too large', cure: null },
  'too-long': { status: 414, title: 'The address is too long', cure: null },
  'not-json': { status: 415, title: 'The body must be application/json', cure: null },
  'bad-range': { status: 416, title: 'That part of the file does not exist', cure: null },
  'wrong-host': {
    status: 421,
    title: 'This station is reached by another name',
    cure: 'On this computer use http://localhost or http://127.0.0.1 with the port of the station; from another device the address that the operator gave.',
  },
  'headers-too-large': { status: 431, title: 'The headers are too large', cure: null },
  'too-many-tries': {
    status: 429,
    title: 'Too many links were tried',
    cure: 'Wait a minute, then open the link once more.',
  },
  'too-many-calls': {
    status: 429,
    title: 'That is more than one device may ask for',
    cure: 'Wait a moment.',
  },
  internal: {
    status: 500,
    title: 'Something went wrong in the station',
    cure: 'Try again; if it stays, look into the station’s log.',
  },
  'too-many-streams': {
    status: 503,
    title: 'Too many pages are open',
    cure: 'Close a page of the station that is not needed.',
  },
  busy: { status: 503, title: 'The station is busy with this', cure: 'Try again in a moment.' },
  stopping: { status: 503, title: 'The station is being stopped', cure: 'Start it again.' },
  'page-not-built': {
    status: 503,
    title: 'The page is not built yet',
    cure: 'Run "npm start" in the checkout: it builds what is missing.',
  },
  'disk-full': { status: 507, title: 'The disk is full', cure: 'Make room on the disk of the station.' },
} as const satisfies Record<string, WebProblem>;
