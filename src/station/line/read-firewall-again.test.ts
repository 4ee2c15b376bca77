import { expect, test } from 'vitest';
import type { LineCheck } from '../../contract/index.ts';
import type { FirewallFacts, WallState } from '../../line/index.ts';
import { sampleLineCheck } from '../../serve/testing/sample-line.ts';
import { readFirewallAgain } from './read-firewall-again.ts';

/** As a station that is no administrator's tells it. */
const unread: LineCheck = {
  ...sampleLineCheck,
  open: true,
  doors: sampleLineCheck.doors.map((door) => ({ ...door, firewall: 'unknown' })),
  passive: { ...sampleLineCheck.passive, firewall: 'unknown' },
  firewall: { kind: 'unknown', read: false, commands: ['some line'] },
  findings: [
    {
      ...{ code: 'line-check.firewall-unread', weight: 'note', sure: 'possible', camera: null },
      ...{ cause: { code: 'line-check.firewall-unread', args: {} }, evidence: [], cures: [] },
    },
  ],
};
const camera = {
  ...{ name: 'cam1', user: 'cam1', allow: ['192.0.2.7'], connected: false, ended: false },
  protocols: ['ftp' as const],
};

/** An administrator's look: the door is let in, the data ports are as said. */
const seen =
  (data: WallState, asked: number[] = []) =>
  async (_: unknown, ports: readonly number[]): Promise<FirewallFacts> => {
    asked.push(...ports);
    const chain = data === 'shut' ? 'inet filter input' : null;
    return {
      kind: 'nftables',
      read: true,
      ports: ports.map((port) =>
        port === 21 ? { port, state: 'open', chain: null } : { port, state: data, chain },
      ),
    };
  };

test('what an administrator reads takes the place of what was not known', async () => {
  const asked: number[] = [];
  const check = await readFirewallAgain(unread, [camera], seen('shut', asked));
  expect(asked).toEqual([21, ...Array.from({ length: 100 }, (_, index) => 50_000 + index)]);
  expect(check.open).toBe(false);
  expect(check.findings.map(({ code, weight }) => [code, weight])).toEqual([
    ['line-check.passive-shut', 'shut'],
  ]);
  expect(check.doors[0]?.firewall).toBe('open');
  expect(check.passive.firewall).toBe('shut');
  expect(check.firewall).toMatchObject({ kind: 'nftables', read: true });
  // For the camera's own address, and for nobody else.
  expect(check.firewall.commands.join()).toContain('192.0.2.7');
  expect(check.firewall.commands.join()).toContain('50000-50099');
});

test('where it lets all in, nothing is left of it', async () => {
  const check = await readFirewallAgain(unread, [camera], seen('open'));
  expect(check).toMatchObject({ open: true, findings: [], firewall: { read: true, commands: [] } });
});

test('who may not read it either, and a station that had read it, leave the check as it is', async () => {
  const refused = async (): Promise<FirewallFacts> => ({ kind: 'unknown', read: false, ports: [] });
  expect(await readFirewallAgain(unread, [camera], refused)).toBe(unread);
  expect(await readFirewallAgain(sampleLineCheck, [camera], seen('shut'))).toBe(sampleLineCheck);
});
