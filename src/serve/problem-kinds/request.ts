import type { WebProblem } from './web-problem.ts';

/** What can be wrong with any request: its form, its address, who makes it. */
export const requestProblems = {
  'bad-request': { status: 400, title: 'The request cannot be read', cure: null },
  'bad-value': {
    status: 400,
    title: 'A value is not allowed here',
    cure: 'See /api/openapi.json for what is.',
  },
  'bad-cursor': { status: 400, title: 'The cursor is not known', cure: 'Begin again without "after".' },
  'operator-only': {
    status: 403,
    title: 'This page is for the operator',
    cure: 'Open it on the computer the station runs on, or ask the operator for a link.',
  },
  'link-needed': {
    status: 403,
    title: 'This needs a link from the operator',
    cure: 'Ask the operator for a link, and open that. One that has ended opens nothing any more.',
  },
  'encrypted-only': {
    status: 403,
    title: 'This link opens over an encrypted line only',
    cure: 'Open its address that begins with https.',
  },
  'ended-in-clear': {
    status: 403,
    title: 'This link crossed the network without encryption, so it has ended',
    cure: 'Ask the operator for a new one, and open its address that begins with https.',
  },
  'no-such-link': {
    status: 403,
    title: 'This link opens nothing, or it has ended',
    cure: 'Look whether all of it was typed, or ask the operator for a new one.',
  },
  'foreign-page': {
    status: 403,
    title: 'Another web page asked for this',
    cure: 'Open the station’s own page.',
  },
  'not-found': { status: 404, title: 'There is no such thing here', cure: null },
  'no-picture': { status: 404, title: 'There is no picture of this frame', cure: null },
  'method-not-allowed': { status: 405, title: 'This cannot be done here', cure: null },
  'request-timeout': { status: 408, title: 'The request took too long to arrive', cure: 'Try again.' },
  'region-outside': {
    status: 400,
    title: 'The region lies outside the picture',
    cure: 'The frame’s picture says its width and height.',
  },
} as const satisfies Record<string, WebProblem>;
