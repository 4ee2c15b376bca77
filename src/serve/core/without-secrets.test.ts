import { expect, test } from 'vitest';
import { z } from 'zod';
import {
  framePage,
  health,
  job,
  seriesList,
  stationEvent,
  station as stationSchema,
  visitor,
} from '../../contract/index.ts';
import { sampleAgreement, sampleJob } from '../../contract/testing/sample-job.ts';
import { sampleFrame, sampleStation } from '../testing/sample-frame.ts';
import { eventFor } from './event-for.ts';
import { withoutSecrets } from './without-secrets.ts';

test('what is left still has the shape it had, so that a page reads it', () => {
  const told = stationSchema.parse(withoutSecrets(sampleStation(true)));
  expect(told.home).toBe('');
  expect(told.addresses).toEqual([]);
  expect(told.cameras[0]).toMatchObject({ name: 'A', user: '', password: null, allow: [], log: [] });
});

test('figures of findings lose folders and addresses; a job keeps its place', () => {
  const value = {
    place: 'studio two',
    trouble: { code: 'c', args: { place: '/mnt/x', address: '10.0.0.9', count: 3 } },
  };
  expect(withoutSecrets(value)).toEqual({
    place: 'studio two',
    trouble: { code: 'c', args: { place: '', address: '', count: 3 } },
  });
});

test('a pocket hears every event, without secrets; a guest hears of shared frames alone', () => {
  const pocket = { scope: 'pocket', name: 'p' } as const;
  const guest = { scope: 'guest', name: 'g', share: { job: 'POTS', shots: [] } } as const;
  const line = { type: 'line', station: sampleStation(true) } as const;
  expect(JSON.stringify(stationEvent.parse(eventFor(pocket, line)))).not.toContain('open-sesame');
  expect(eventFor(guest, line)).toBeNull();
  const shared = {
    type: 'frame',
    change: 'kept',
    frame: sampleFrame({ job: 'POTS', mark: 'hero' }),
  } as const;
  expect(stationEvent.parse(eventFor(guest, shared))).toMatchObject({ frame: { id: 'f1', readings: {} } });
  expect(eventFor(guest, { ...shared, frame: sampleFrame({ job: 'OTHER', mark: 'hero' }) })).toBeNull();
});

test('a guest whose frame was moved away or put aside is told to load again, and not what became of it', () => {
  const guest = { scope: 'guest', name: 'g', share: { job: 'POTS', shots: [] } } as const;
  for (const change of ['moved', 'marked', 'chosen', 'shared'] as const) {
    const event = { type: 'frame', change, frame: sampleFrame({ job: 'POTS', mark: 'out' }) } as const;
    expect(eventFor(guest, event)).toEqual({ type: 'resync' });
  }
});

test('a guest hears of a job who agreed to the shots that are shared with them, and nothing else', () => {
  const guest = { scope: 'guest', name: 'g', share: { job: 'POTS', shots: ['mug'] } } as const;
  const agreements = [sampleAgreement({ shot: 'mug' }), sampleAgreement({ id: 'a2', shot: 'jug' })];
  const event = { type: 'job', code: 'POTS', job: sampleJob({ code: 'POTS', agreements }) } as const;
  expect(stationEvent.parse(eventFor(guest, event))).toEqual({
    type: 'agreements',
    code: 'POTS',
    agreements: [{ ...sampleAgreement({ shot: 'mug' }), by: { name: 'Ada', from: 'guest', link: '' } }],
  });
  expect(eventFor(guest, { ...event, code: 'OTHER' })).toBeNull();
  expect(eventFor({ ...guest, share: null }, event)).toBeNull();
});

test('the folders a camera is watched in are not told, nor what nobody has thought of yet', () => {
  const told = withoutSecrets({
    cameras: [{ name: 'A', watched: ['/mnt/x'] }],
    newThing: 'x',
    newThings: ['y'],
  });
  expect(told).toEqual({ cameras: [{ name: 'A', watched: [] }], newThing: '', newThings: [] });
});

/** Names of texts and lists in a JSON Schema, `$ref` followed. */
function namesIn(schema: z.core.JSONSchema.BaseSchema, name: string, names: Set<string>): void {
  const is = [schema.type].flat();
  if (is.includes('string') || is.includes('array') || schema.enum !== undefined) names.add(name);
  for (const each of [...(schema.anyOf ?? []), ...(schema.oneOf ?? []), schema.items].flat()) {
    if (typeof each === 'object') namesIn(each, name, names);
  }
  for (const [inner, each] of Object.entries(schema.properties ?? {})) {
    if (typeof each === 'object' && inner !== 'args') namesIn(each, inner, names);
  }
  for (const each of Object.values(schema.$defs ?? {})) namesIn(each, '', names);
}

test('what the contract has and a pocket is not told is exactly this', () => {
  const names = new Set<string>();
  for (const each of [framePage, job, stationSchema, seriesList, visitor, health, stationEvent]) {
    namesIn(z.toJSONSchema(each), '', names);
  }
  const isKeptBack = (name: string): boolean =>
    name !== '' && JSON.stringify(withoutSecrets({ [name]: 'x' })) !== JSON.stringify({ [name]: 'x' });
  const ofCameras = ['user', 'password', 'allow', 'keys', 'comment', 'log', 'watched'];
  const ofTheComputer = ['home', 'folder', 'addresses', 'address', 'family', 'interface', 'hostKeys'];
  // Whole events of looks are the operator's; these are of their documents.
  // Which link somebody came in by.
  const ofSpeakers = ['link'];
  const ofSidecars = ['creator', 'rights'];
  const ofLooks = ['savedAt', 'savedBy', 'bands', 'flip', 'lines', 'offset', 'power', 'rgb', 'slope'];
  // Whole events of deliveries are the operator's too, and so is what is written into their files.
  const ofDeliveries = ['destination', 'endedAt', 'metadata', 'specificationSha256', 'startedAt'];
  // Whole events of papers and of packages as well.
  const ofPapers = ['contactSheets', 'started'];
  const ofBags = ['leftOut', 'payloadOxum', 'phase', 'weight'];
  // And those of cards and of reading again.
  const ofCards = ['copies', 'dueAt', 'left', 'notSafe', 'pace', 'path'];
  expect([...names].filter(isKeptBack).sort()).toEqual(
    [
      ...ofCameras,
      ...ofTheComputer,
      ...ofSpeakers,
      ...ofSidecars,
      ...ofLooks,
      ...ofDeliveries,
      ...ofPapers,
      ...ofBags,
      ...ofCards,
    ].sort(),
  );
});
