import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { LineFinding } from '../contract/index.ts';
import { sampleLineCheck } from '../serve/testing/sample-line.ts';
import { lineLines } from './line-lines.ts';
import { runCommand } from './run-command.ts';

let home: string;
beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-line-command-'));
});
afterEach(async () => {
  vi.restoreAllMocks();
  await rm(home, { recursive: true, force: true });
});

test('without a station it fails, and a word that it does not know is wrong use', async () => {
  const said: string[] = [];
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => said.push(String(text)) > 0);
  expect(await runCommand(['line', '--home', home])).toBe(3);
  expect(said.join('')).toContain('no station runs in');
  expect(await runCommand(['line', '--open-everything'])).toBe(2);
});

test('what is wrong stands before what was looked at, worst first', () => {
  const lines = lineLines(sampleLineCheck);
  expect(lines[0]).toBe('The line is shut in one place.');
  expect(lines[2]).toMatch(/^SHUT: .* This is certain\.$/);
  expect(lines).toContain('FTP     port 21');
  expect(lines).toContain('passive ports 50000-50099, shut by the firewall');
  expect(
    lines.some((line) => line.startsWith('eth0    wired, 192.0.2.1 in 192.0.2.0/24, dealt out for 12 h')),
  ).toBe(true);
});

test('before a camera has come, nobody says that the line is open', () => {
  const open = { ...sampleLineCheck, open: true, findings: [] };
  expect(lineLines(open)[0]).toBe('The line is open.');
  const came = { code: 'line-check.nothing-came', args: {} };
  const finding: LineFinding = {
    ...{ code: came.code, weight: 'note', sure: 'certain', camera: null },
    ...{ cause: came, evidence: [], cures: [] },
  };
  expect(lineLines({ ...open, findings: [finding] })[0]).toContain('No camera has come since the start');
});

test('one door shut of several is no shut line, and it is said that it needs a look', () => {
  const cause = { code: 'line-check.port-taken', args: { door: 'SFTP', port: 2222 } };
  const finding: LineFinding = {
    ...{ code: cause.code, weight: 'weak', sure: 'certain', camera: null },
    ...{ cause, evidence: [], cures: [] },
  };
  const [word] = lineLines({ ...sampleLineCheck, open: true, findings: [finding] });
  expect(word).toBe('The line is not shut, but needs a look in one place.');
});
