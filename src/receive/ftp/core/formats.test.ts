import fc from 'fast-check';
import { expect, test } from 'vitest';
import { listLine } from '../../core/list-line.ts';
import { factsLine, linesInPieces } from './listing.ts';
import { momentToTimeVal, timeValToMoment } from './moment.ts';
import { formatReply, quotePath, reply } from './reply.ts';

const latin1 = (bytes: Uint8Array): string => String.fromCharCode(...bytes);
const nowMs = Date.UTC(2026, 9, 1, 8, 4, 5);
const file = { name: 'SET 1.DNG', kind: 'file', sizeBytes: 25_400_000, modifiedMs: nowMs - 60_000 } as const;
const folder = { name: 'DCIM', kind: 'folder', sizeBytes: 0, modifiedMs: Date.UTC(2024, 1, 29) } as const;

test('2.3 a reply is one line, or several whose inner lines begin with a blank (RFC 959 section 4.2)', () => {
  expect(latin1(formatReply(reply(200, 'Fine.')))).toBe('200 Fine.\r\n');
  expect(latin1(formatReply({ code: 211, text: 'Features:', inner: ['211 is not the end', 'B'] }))).toBe(
    '211-Features:\r\n 211 is not the end\r\n B\r\n211 End\r\n',
  );
});

test('2.3 control characters in a reply become ?, and a raw 0xFF is doubled (RFC 854)', () => {
  expect(latin1(formatReply(reply(550, 'a\r\n226 b\u001b[0m\u0085')))).toBe('550 a??226 b?[0m?\r\n');
  expect(latin1(formatReply(reply(257, '"\uefff"')))).toBe('257 "\u00ff\u00ff"\r\n');
});

test('quotes in a path are doubled (RFC 959 appendix II)', () => {
  expect(quotePath('/a"b')).toBe('"/a""b"');
});

test('LIST shows the time of day within half a year, the year before that and for what lies ahead (POSIX ls -l)', () => {
  expect(listLine(file, nowMs)).toBe('-rw-r--r-- 1 camera camera     25400000 Oct 01 08:03 SET 1.DNG');
  expect(listLine(folder, nowMs)).toBe('drwxr-xr-x 1 camera camera            0 Feb 29  2024 DCIM');
  expect(listLine({ ...file, modifiedMs: nowMs + 1000 }, nowMs)).toContain(' Oct 01  2026 ');
});

test('facts are those asked for, then one blank and the name as it is (RFC 3659 section 7.2)', () => {
  expect(factsLine(file, ['type', 'size', 'modify'])).toBe(
    'type=file;size=25400000;modify=20261001080305; SET 1.DNG',
  );
  expect(factsLine(folder, ['type', 'size', 'modify'])).toBe('type=dir;modify=20240229000000; DCIM');
  expect(factsLine(file, [])).toBe(' SET 1.DNG');
});

test('a listing of any length comes in pieces of bounded size and in order', () => {
  const lines = Array.from({ length: 5000 }, (_, index) => `line ${index}`);
  const pieces = [...linesInPieces(lines)];
  expect(pieces.map(latin1).join('')).toBe(lines.map((line) => `${line}\r\n`).join(''));
  expect(Math.max(...pieces.map((piece) => piece.length))).toBeLessThan(16_384 + 300);
  expect([...linesInPieces([])]).toEqual([]);
});

test('time values read as RFC 3659 section 2.3 writes them, and only real dates', () => {
  // The examples of RFC 3659 section 3.3 and of the MFMT draft, from memory; the platform's Date.UTC is the judge.
  expect(timeValToMoment('19980615100045.014')).toBe(Date.UTC(1998, 5, 15, 10, 0, 45, 14));
  expect(timeValToMoment('20020717210715')).toBe(Date.UTC(2002, 6, 17, 21, 7, 15));
  for (const wrong of ['', '2002', '20020230000000', '20021317210715', '20020717250000', '20020717210715 ']) {
    expect(timeValToMoment(wrong), wrong).toBeNull();
  }
});

test('any moment comes back from its time value', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: Date.UTC(2200, 0) }), (moment) => {
      expect(timeValToMoment(momentToTimeVal(moment))).toBe(moment);
    }),
  );
});
