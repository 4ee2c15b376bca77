import { expect, test } from 'vitest';
import { sentence } from '../words/index.ts';
import { diagnose, type LineFacts } from './index.ts';
import { door, line, nowMs, sampleCamera, sampleFacts, wired } from './testing/sample-facts.ts';

const taken = door('sftp', null, { wanted: 2222, holder: 'other (7)' });
test.each([
  ['a camera may come by another', [door('ftp', 21), taken], sampleCamera(), 'weak'],
  ['a camera may come by it alone', [door('ftp', 21), taken], sampleCamera({ protocols: ['sftp'] }), 'shut'],
  ['no door is open beside it', [door('ftp', null), taken], sampleCamera(), 'shut'],
] as const)('one door shut, and %s', (_what, doors, camera, weight) => {
  const [finding] = diagnose(sampleFacts({ doors, cameras: [camera] }));
  expect(finding).toMatchObject({ code: 'line-check.port-taken', weight, cause: { args: { door: 'SFTP' } } });
  const told = finding?.evidence.map((each) => sentence(each)).join(' ');
  if (weight === 'weak') expect(told).toContain('Open beside it: FTP (21).');
});

test('FTP shut is the way shut, until a camera has come in by another door', () => {
  const doors = [door('ftp', null, { wanted: 21 }), door('sftp', 2222)];
  const weight = (lines: LineFacts['lines']): unknown => diagnose(sampleFacts({ doors, lines }))[0]?.weight;
  expect(weight([])).toBe('shut');
  expect(weight([line('line.logged-in', { address: '192.168.7.20' })])).toBe('weak');
});

test('where a camera comes in on this computer itself, no network is no shut way', () => {
  const within = line(
    'line.logged-in',
    { address: '127.0.0.1', local: '127.0.0.1' },
    { address: '127.0.0.1' },
  );
  const open = { interfaces: [wired('eth0', '192.0.2.5', { served: false })], cameras: [sampleCamera()] };
  const weight = (lines: LineFacts['lines']): unknown =>
    diagnose(sampleFacts({ ...open, lines })).find(({ code }) => code === 'line-check.only-public')?.weight;
  expect(weight([])).toBe('shut');
  expect(weight([within])).toBe('note');
});

test('an address is reserved only where somebody deals addresses out', () => {
  const gone = { local: '192.168.7.77', address: '192.168.7.20', atMs: nowMs };
  const cures = (
    held: Partial<LineFacts['interfaces'][number]['addresses'][number]>,
    gateway: string | null,
  ) => {
    const eth0 = { ...wired('eth0', '192.168.7.2', held), gateway };
    const facts = sampleFacts({ interfaces: [eth0], cameras: [sampleCamera({ login: gone })] });
    const finding = diagnose(facts).find(({ code }) => code === 'line-check.address-changed');
    return finding?.cures.map((each) => each.finding.code);
  };
  expect(cures({}, null)).not.toContain('line-cure.reserve');
  expect(cures({ given: 'dealt-out' }, null)).toContain('line-cure.reserve');
  expect(cures({}, '192.168.7.1')).toContain('line-cure.reserve');
});
