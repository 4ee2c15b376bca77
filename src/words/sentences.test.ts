import { expect, test } from 'vitest';
import { exposedFigurePhrase } from './english-exposed.ts';
import { judgementNames, kindName } from './names.ts';
import { burstPhrase, durationPhrase, figurePhrase, sharePhrase, sizePhrase, spanPhrase } from './phrases.ts';
import { depthPhrase } from './reading-labels.ts';
import { knownCodes, sentence } from './sentences.ts';

test('a half file of a watched folder is told of without a client or a camera that sent it', () => {
  const args = { name: 'A.DNG', bytes: 1_200_000, via: 'folder' };
  const said = ['closed', 'reset', 'aborted', 'stopping', 'dismissed'].map((why) =>
    sentence({ code: 'line.upload-broken-off', args: { ...args, why } }),
  );
  said.push(sentence({ code: 'line.upload-kept-damaged', args }));
  said.push(sentence({ code: 'arrived.damaged', args: { bytes: 1, expectedBytes: 2 } }));
  for (const each of said) expect(each).not.toMatch(/client|camera sent|twice|second time/);
});

test('one file that was not taken is spoken of as one', () => {
  const said = (count: number): string =>
    sentence({ code: 'line.watch-not-taken', args: { folder: '/card', name: 'a.jpg', count } });
  expect(said(1)).toMatch(
    /^One file in \/card was not taken: a\.jpg\. .* give it a plain name, or copy it by hand\.$/,
  );
  expect(said(3)).toMatch(
    /^3 files in \/card were not taken: a\.jpg and 2 more\. .* give them plain names, or copy them/,
  );
});

test('every sentence is plain text that ends with a full stop, whatever figures are missing', () => {
  for (const code of knownCodes()) {
    const text = sentence({ code, args: {} });
    expect(text, code).toMatch(/^[^<>]+\.$/);
    expect(text, code).not.toMatch(/undefined|NaN/);
  }
});

test('an unknown code is shown as it is, never swallowed', () => {
  expect(sentence({ code: 'line.new', args: { port: 21 } })).toBe('line.new: port 21.');
});

test('sizes are decimal, as disks and cards are sold', () => {
  expect([0, 1, 999, 1000, 25_400_000, 5_000_000_000].map(sizePhrase)).toEqual([
    '0 bytes',
    '1 byte',
    '999 bytes',
    '1 kB',
    '25.4 MB',
    '5.0 GB',
  ]);
});

test('a figure is rounded once and carries into the next unit', () => {
  expect([999_499, 999_500, 999_999, 999_949_999, 999_950_000].map(sizePhrase)).toEqual([
    '999 kB',
    '1.0 MB',
    '1.0 MB',
    '999.9 MB',
    '1.0 GB',
  ]);
  expect([0, 20, 50, 9949, 9950, 59_499, 59_600, 119_400, 119_700].map(durationPhrase)).toEqual([
    '0.0 s',
    'under 0.1 s',
    '0.1 s',
    '9.9 s',
    '10 s',
    '59 s',
    '1 min 0 s',
    '1 min 59 s',
    '2 min 0 s',
  ]);
  expect([figurePhrase(0.996, 'px'), figurePhrase(99.96, 'px')]).toEqual(['1 px', '100 px']);
});

test('durations are said as a person says them', () => {
  expect([800, 12_300, 200_000].map(durationPhrase)).toEqual(['0.8 s', '12 s', '3 min 20 s']);
});

test('a pause is rounded to what a person would say', () => {
  expect([40_000, 119_000, 720_000, 3_600_000, 3_900_000, 3 * 86_400_000].map(spanPhrase)).toEqual([
    '40 s',
    '119 s',
    '12 min',
    '1 h',
    '1 h 5 min',
    '3 days',
  ]);
});

test('a figure has the digits that can be read in passing', () => {
  const figures = [
    figurePhrase(4.13, 'px'),
    figurePhrase(0.034, 'EV'),
    figurePhrase(128.4, 'px'),
    figurePhrase(25, 'dB'),
    figurePhrase(-0.00523, 'Duv'),
    figurePhrase(-0.001, 'EV'),
    figurePhrase(-1.24, 'EV'),
    figurePhrase(2, '°'),
  ];
  expect(figures).toEqual([
    '4.1 px',
    '0.03 EV',
    '128 px',
    '25 dB',
    '−0.0052 Duv',
    '0.00 EV',
    '−1.2 EV',
    '2°',
  ]);
  // A card's figure and its sentence are one form.
  const turned = sentence({ code: 'place.turned', args: { degrees: 2, limitDegrees: 0.2 } });
  expect(turned).toContain(`turned by ${figurePhrase(2, '°')} clockwise`);
});

test('two ranges of depth that read alike are said once', () => {
  const field = { nearMm: 1650, farMm: 1750, distanceMm: 1700 };
  expect(depthPhrase({ ...field, withDiffraction: { nearMm: 1652, farMm: 1748 } })).toBe(
    'Focused at 1.70 m, sharp from 1.65 m to 1.75 m; diffraction changes nothing of that.',
  );
  expect(depthPhrase({ ...field, withDiffraction: { nearMm: 1670, farMm: 1730 } })).toContain(
    'with diffraction from 1.67 m to 1.73 m',
  );
});

test('a width that reads as its limit is not said to be above it', () => {
  const soft = (px: number): string => sentence({ code: 'sharp.soft', args: { px, limitPx: 3.88 } });
  expect(soft(3.94)).toBe('Soft: edges 3.9 px wide, at the limit of what is sharp.');
  expect(soft(4.06)).toBe('Soft: edges 4.1 px wide, up to 3.9 px is sharp.');
});

test('what has not turned or grown is said to be so, and not by a nought with a direction', () => {
  const still = sentence({ code: 'place.good', args: { px: 0.02, degrees: -0.001, percent: 0.002 } });
  expect(still).toBe('In place: 0.02 px off the reference, not turned, of the same size.');
});

test('why a picture cannot be shown is said in words, for raw data and for finished pictures', () => {
  const said = (code: string, why: string): string => sentence({ code, args: { name: 'A.DNG', why } });
  expect(said('picture.cannot-develop', 'raw-cannot-decode')).toBe(
    'A.DNG is kept safe, but its raw data cannot be developed here: how its camera packs it is not known to this station. Choose another compression for raw files on the camera, or have it write a JPEG too.',
  );
  expect(said('picture.cannot-show', 'picture-too-large')).toBe(
    'A.DNG is kept safe, but it cannot be shown here: it has more pixels than this station renders.',
  );
});

test('every reason that developing and the workers can give has words of its own', () => {
  const reasons = [
    ...[
      'raw-cannot-decode',
      'raw-too-small',
      'raw-cut',
      'raw-unsupported-mosaic',
      'raw-too-large',
      'picture-cannot-decode',
    ],
    ...['picture-too-large', 'picture-is-raw', 'worker-crashed', 'worker-too-slow', 'ENOENT', 'EIO'],
  ];
  for (const why of reasons) {
    expect(sentence({ code: 'picture.cannot-show', args: { name: 'A', why } })).not.toContain(why);
  }
});

test('what could command a terminal, or turn its text around, is not let through (ECMA-48 C0 and C1, UAX 9)', () => {
  const args = { address: '192.0.2.7', user: 'a\u001b[2J\u009b1m\u202eb' };
  expect(sentence({ code: 'line.wrong-login', args })).toContain('“a\ufffd[2J\ufffd1m\ufffdb”');
  expect(sentence({ code: 'line.new', args: { name: '\u0007' } })).toBe('line.new: name \ufffd.');
});

test('a name that was Latin-1 on the wire is said as its writer meant it', () => {
  expect(sentence({ code: 'line.upload-started', args: { name: 'gr\uEFFC\uEFDFe.jpg' } })).toBe(
    'grüße.jpg started to arrive.',
  );
});

test('of what is there it is never said that it is nothing, in a sentence or as a share', () => {
  expect([0, 1, 99, 100, 4100, 9999].map((part) => sharePhrase(part, 10_000))).toEqual([
    '0 %',
    'under 1 %',
    'under 1 %',
    '1 %',
    '41 %',
    '99 %',
  ]);
  const args = { bytes: 131_000, expectedBytes: 29_400_000 };
  expect(sentence({ code: 'arrived.damaged', args })).toMatch(/^Damaged: cut short at under 1 %/);
  expect(sentence({ code: 'arrived.broken-off', args })).toContain('131 kB of 29.4 MB (under 1 %)');
  expect(sentence({ code: 'arrived.arriving', args })).toBe('Arriving: 131 kB of 29.4 MB, under 1 %.');
});

test('where nobody knows how much was to come, no sentence gives a total', () => {
  const args = { bytes: 14_000, expectedBytes: 0 };
  expect(sentence({ code: 'arrived.arriving', args })).toBe('Arriving: 14 kB so far, of an unknown total.');
  expect(sentence({ code: 'arrived.broken-off', args })).toMatch(
    /^Broken off after 14 kB of an unknown total: send it again/,
  );
  expect(sentence({ code: 'arrived.damaged', args })).toMatch(/^Damaged: cut short after 14 kB, and/);
  expect(sentence({ code: 'page.rail-broken-off', args })).toBe('Broken off after 14 kB.');
  expect(sentence({ code: 'page.rail-damaged', args })).toBe('Cut short after 14 kB.');
});

test('a frame of several files is told with all of them, and not under the name of one', () => {
  const args = { name: 'QMST0001.JPG', shot: 'mug', bytes: 8e6 };
  expect(sentence({ code: 'stand-in.shot', args: { ...args, files: 2 } })).toBe(
    'QMST0001 is shot (mug, 2 files, 8.0 MB).',
  );
  expect(sentence({ code: 'stand-in.shot', args: { ...args, files: 1 } })).toBe(
    'QMST0001.JPG is shot (mug, 8.0 MB).',
  );
});

test('frames of one and the same moment are at once, and not in no time', () => {
  expect(burstPhrase(5, 0)).toBe('5 at once');
  expect(burstPhrase(10, 900)).toBe('10 in 0.9 s');
});

test('no kind of file has the name of a verdict', () => {
  expect(Object.values(judgementNames)).not.toContain(kindName('unknown'));
});

test('what lies at its limit is not called out of place, and never said to be as far off as is in place', () => {
  const moved = (rightPx: number, limitPx: number): string =>
    sentence({ code: 'place.moved', args: { rightPx, downPx: 0, mm: 0, limitPx } });
  expect(moved(9.99, 10)).toBe('Perhaps not in place: it lies 10 px to the right, at the limit of 10 px.');
  expect(moved(10.02, 10)).toBe('Perhaps not in place: it lies 10 px to the right, at the limit of 10 px.');
  expect(moved(12, 10)).toBe('Not in place: it lies 12 px to the right, up to 10 px is in place.');
});

test('a figure in EV says what it is of: room above the brightest, or the way off what it is held against', () => {
  expect(exposedFigurePhrase('exposed.good', 1.2, 'EV')).toBe('1.2 EV free');
  expect(exposedFigurePhrase('exposed.off-reference', 0.3, 'EV')).toBe('0.30 EV off');
  expect(exposedFigurePhrase('exposed.clipped', 0.4, '%')).toBe('0.40 %');
});

test('a full disk names the file it stopped, and how much of it is there', () => {
  const said = (args: Record<string, string | number>): string => sentence({ code: 'line.disk-full', args });
  expect(said({})).toBe('The disk is full: new frames are refused until there is room.');
  expect(said({ name: 'A.DNG' })).toBe(
    'The disk is full: A.DNG was not taken, and new frames are refused until there is room.',
  );
  expect(said({ name: 'A.DNG', bytes: 150_000_000 })).toBe(
    'The disk is full: it stopped A.DNG after 150.0 MB, which stay here. Make room, and send it again; until then new frames are refused.',
  );
  expect(said({ name: 'A.DNG', bytes: 150_000_000, via: 'folder' })).toMatch(/it is taken again by itself/);
});
