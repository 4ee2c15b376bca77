import { expect, test } from 'vitest';
import { diagnose } from './index.ts';
import { sampleCamera, sampleFacts } from './testing/sample-facts.ts';

const firewall = {
  kind: 'nftables',
  read: true,
  ports: [{ port: 8461, state: 'shut', chain: 'inet filter input' }],
} as const;

test('the port for links is opened for the station’s networks, whatever the cameras are held to', () => {
  const cameras = [sampleCamera({ allow: ['192.168.7.20'] })];
  const [finding, ...others] = diagnose(sampleFacts({ linkPort: 8461, firewall, cameras }));
  expect(others).toEqual([]);
  expect(finding?.code).toBe('line-check.links-shut');
  expect(finding?.cures[0]?.commands.join()).toContain('192.168.7.0/24');
});

test('while there is no link its port may be shut', () => {
  expect(diagnose(sampleFacts({ linkPort: null, firewall }))).toEqual([]);
});
