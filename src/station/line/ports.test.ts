import { expect, test } from 'vitest';
import { readVector } from '../../../test/vector.ts';
import { defaults } from '../core/options.ts';

/** IANA's registry of service names and port numbers, and RFC 6335 section 6. */
const { ports, port_ranges } = readVector<{
  ports: { port: number; name: string }[];
  port_ranges: { dynamic: string };
}>('network-facts.json');

test('the doors are where IANA says that people look for them', () => {
  const named = (name: string): number | undefined => ports.find((entry) => entry.name === name)?.port;
  expect(defaults.ftpPorts[0]).toBe(named('ftp'));
  expect(defaults.ftpsPorts[0]).toBe(named('ftps'));
});

test('data ports are of those that nobody has a name for', () => {
  const [from = 0, to = 0] = port_ranges.dynamic.split('-').map(Number);
  expect(defaults.passive.from).toBeGreaterThanOrEqual(from);
  expect(defaults.passive.to).toBeLessThanOrEqual(to);
});
