import { expect, test } from 'vitest';
import { type LookInput, lookSchema } from '../schema.ts';
import { convertDocument, exportLook } from './convert.ts';

const codes = (members: Omit<LookInput, 'version' | 'title'>): string[] =>
  exportLook(lookSchema.parse({ version: 2, title: 'Tried', ...members })).findings.map(({ code }) => code);

test('a look without a curve says that its document hands on what is lighter than white', () => {
  expect(codes({ exposureEv: 1 })).toEqual(['look.clf-not-cut']);
  expect(codes({ cdl: { saturation: 0.5 } })).not.toContain('look.clf-not-cut');
});

test('a look whose parts all look beyond the point becomes no document', () => {
  const look = lookSchema.parse({ version: 2, title: 'Tried', falloffEv: 1 });
  const converted = convertDocument({ kind: 'look', look, versionRead: 2 }, 'clf', { id: null, title: '' });
  expect(converted.text).toBeNull();
  expect(converted.findings.map(({ code }) => code)).toEqual(['look.nothing-for-a-table']);
  expect(codes({ falloffEv: 1, exposureEv: 1 })).toEqual(['look.table-left-out', 'look.clf-not-cut']);
});

test('a balance by target is told without a frame being spoken of', () => {
  expect(codes({ balance: { from: 'target' }, cdl: { saturation: 0.5 } })).toContain('look.table-no-target');
});
