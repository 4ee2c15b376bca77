import { spawnSync } from 'node:child_process';
import { createServer } from 'node:net';
import { afterEach, expect, test } from 'vitest';
import { SetsideError } from '../base/index.ts';
import { withHolder } from './port-holder.ts';

const closing: (() => void)[] = [];
afterEach(() => {
  for (const close of closing.splice(0)) close();
});

const hasSs = process.platform === 'linux' && spawnSync('ss', ['-V']).status === 0;

test.skipIf(!hasSs)('a taken port is told with who has it, and the option that chooses another', async () => {
  const server = createServer().listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  closing.push(() => server.close());
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const taken = new SetsideError('port-in-use', `expected port ${port} to be free`);
  const told = await withHolder(taken, port, '--ftp PORT');
  if (!(told instanceof SetsideError)) throw new Error('expected an error of ours');
  expect(told.code).toBe('port-in-use');
  expect(told.message).toContain(`(${process.pid})`);
  expect(told.cure).toContain('--ftp PORT');
});

test('anything else stays as it was thrown', async () => {
  const other = new SetsideError('port-forbidden', 'expected a right');
  expect(await withHolder(other, 21, '--ftp PORT')).toBe(other);
});
