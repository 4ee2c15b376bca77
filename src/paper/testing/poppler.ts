import { spawnSync } from 'node:child_process';
import { inflateSync } from 'node:zlib';
import { expect } from 'vitest';

/** Poppler is the judge of what is in a PDF; where it is not installed its tests are left out. */
export const hasPoppler: boolean = spawnSync('pdfinfo', ['-v']).status === 0;

/** What one of its programs prints; fails where it complains. */
export function said(program: string, ...words: string[]): string {
  const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8' });
  expect(stderr, program).toBe('');
  expect(status, program).toBe(0);
  return stdout;
}

/** Of a PDF whose streams are either plain or deflated, as pdfkit writes them. */
export function streamsOf(pdf: Uint8Array): Buffer[] {
  const whole = Buffer.from(pdf);
  const streams: Buffer[] = [];
  for (let at = whole.indexOf('stream\n'); at >= 0; at = whole.indexOf('stream\n', at)) {
    const end = whole.indexOf('\nendstream', at);
    const body = whole.subarray(at + 7, end);
    streams.push(body[0] === 0x78 ? inflateSync(body) : body);
    at = end + 10;
  }
  return streams;
}

/** What a page draws, of each page, where a colour of a device would be set: ISO 32000-1 table 74. */
export function drawnPages(pdf: Uint8Array): string[] {
  return streamsOf(pdf)
    .filter((stream) => !(stream[0] === 0xff && stream[1] === 0xd8))
    .map((stream) => stream.toString('latin1'))
    .filter((text) => /\bBT\b/.test(text) && /\bET\b/.test(text));
}

export const deviceColour = /Device|(?<![\w/.])(?:g|rg|k|G|RG|K)\n/;
