import { expect, test } from 'vitest';
import type { Frame } from '../../contract/index.ts';
import { type Job, noStrike, plainShot } from '../../job/index.ts';
import { sampleFrame, sampleRemark } from '../../serve/testing/sample-frame.ts';
import { contactSections, isAsked } from './contact-frames.ts';

const job: Job = {
  ...{ title: '', client: '', fromDate: null, toDate: null, place: '', notes: '' },
  code: 'A',
  state: 'open',
  tolerances: {},
  greyCard: false,
  handOver: { naming: '', look: null, deliveries: [] },
  colour: { edition: null, toleranceSet: null },
  targets: [],
  scales: [],
  agreements: [],
  strike: noStrike,
  shots: [
    { ...plainShot('mug', 'Mug'), order: ['h2', 'h1'] },
    { ...plainShot('old', 'Old jug'), hidden: true },
    plainShot('jug', 'Jug'),
  ],
  currentShot: null,
  version: 1,
};
const frame = (id: string, more: Partial<Frame> = {}): Frame =>
  sampleFrame({ id, name: `${id}.DNG`, ...more });
const ids = (frames: readonly { readonly id: string }[]): string[] => frames.map(({ id }) => id);

test('frames lie under their shots in the order of the list, heroes in their own order; then shots taken away, then none', () => {
  const frames = [
    frame('a', { shot: 'jug' }),
    frame('h1', { shot: 'mug', mark: 'hero' }),
    frame('b', { shot: null }),
    frame('h2', { shot: 'mug', mark: 'hero' }),
    frame('plain', { shot: 'mug' }),
    frame('c', { shot: 'mug', mark: 'select' }),
    frame('d', { shot: 'old' }),
    frame('h3', { shot: 'mug', mark: 'hero' }),
  ];
  const sections = contactSections(job, frames, false);
  expect(sections.map(({ name }) => name)).toEqual(['Mug', 'Jug', 'Old jug', 'Of no shot']);
  expect(ids(sections[0]?.heroes ?? [])).toEqual(['h2', 'h1', 'h3']);
  expect(ids(sections[0]?.frames ?? [])).toEqual(['c', 'plain']);
});

test('what is asked for: a shot, marks; for the client what guests see', () => {
  const frames = [
    frame('a', { shot: 'mug' }),
    frame('b', { shot: 'mug', mark: 'hero' }),
    frame('c', { shot: 'jug', mark: 'select', share: 'kept-back' }),
    frame('d', { mark: 'out' }),
    frame('e', { mark: 'hero', picture: { state: 'none' } }),
  ];
  frames.push(frame('t', { name: 'REHEARSE.JPG', purpose: 'test' }));
  const asked = (more: object): string[] =>
    ids(
      frames.filter(
        isAsked({ shot: undefined, marks: undefined, forClient: false, forGuest: null, ...more }),
      ),
    );
  expect(asked({})).toEqual(['a', 'b', 'c', 'd', 'e']);
  expect(asked({ shot: 'mug' })).toEqual(['a', 'b']);
  expect(asked({ marks: ['out', 'select'] })).toEqual(['c', 'd']);
  expect(asked({ forClient: true })).toEqual(['b']);
  frames.push(frame('u', { shot: 'jug', mark: 'select' }), frame('v', { mark: 'select' }));
  const guest = (...shots: string[]): string[] => asked({ forClient: true, forGuest: { shots } });
  expect(guest('mug')).toEqual(['b']);
  expect(guest('jug', 'bowl')).toEqual(['u']);
  expect(guest()).toEqual(['b', 'u', 'v']);
});

const remarks = [
  sampleRemark({ id: 'r1', text: 'chipped', point: { x: 0.25, y: 0.5 } }),
  sampleRemark({ id: 'r2', text: 'among us', inside: true, point: null }),
  sampleRemark({ id: 'r3', text: 'cut off', point: { x: 0.9, y: 0.5 } }),
];

test('remarks have the numbers they have on the pages, and lie where the look put the place; what it cut off is told only in words', () => {
  const [section] = contactSections(
    job,
    [
      frame('a', {
        remarks,
        // The left half of the original is shown: x of the picture is twice that of the original.
        picture: {
          state: 'rendered',
          width: 1500,
          height: 2000,
          source: 'raw',
          look: '',
          target: null,
          original: { width: 3000, height: 2000, toOriginal: [0.5, 0, 0, 0, 1, 0, 0, 0, 1] },
          version: 1,
        },
      }),
    ],
    false,
  );
  const [printed] = section?.frames ?? [];
  expect(printed?.pins).toEqual([{ name: '1', x: 0.5, y: 0.5 }]);
  expect(printed?.aspect).toBe(0.75);
  expect(printed?.lines.at(-1)).toBe('Remarks 1, a, 2');
  expect(section?.remarks.map(({ text }) => text)).toEqual(['chipped', 'among us', 'cut off']);
});

test('a copy for the client has no verdict and nothing that was said inside', () => {
  const [own, client] = [false, true].map(
    (forClient) => contactSections(job, [frame('a', { remarks })], forClient)[0],
  );
  expect(own?.frames[0]?.standing).toBe('good');
  expect(client?.frames[0]?.standing).toBeNull();
  expect(client?.remarks.map(({ text }) => text)).toEqual(['chipped', 'cut off']);
  expect(client?.frames[0]?.lines.at(-1)).toBe('Remarks 1, 2');
});

test('pins for the client do not tell how often something was said inside', () => {
  const seen = [sampleRemark({ id: 'r0', text: 'among us', inside: true }), ...remarks];
  const [section] = contactSections(job, [frame('a', { remarks: seen })], true);
  expect(section?.frames[0]?.lines.at(-1)).toBe('Remarks 1, 2');
});

test('why there is no picture stands in its place', () => {
  const cannot: Frame['picture'] = {
    state: 'cannot',
    reason: { code: 'picture.not-a-picture', args: {} },
    preview: false,
    width: null,
    height: null,
    orientation: null,
    version: 1,
  };
  const [section] = contactSections(
    job,
    [frame('a', { picture: { state: 'none' } }), frame('b', { picture: cannot })],
    false,
  );
  expect(section?.frames.map(({ aspect }) => aspect)).toEqual([null, null]);
  expect(section?.frames[0]?.why).toBe('Not rendered yet');
  expect(section?.frames[1]?.why).toMatch(/\.$/);
});
