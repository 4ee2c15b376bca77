import { expect, test } from 'vitest';
import { Closers } from './closers.ts';

test('parts are closed last first, each once, and one that fails does not keep the others open', async () => {
  const order: string[] = [];
  const failures: unknown[] = [];
  const closers = new Closers((thrown) => failures.push(thrown));
  closers.add(() => {
    order.push('disk');
  });
  closers.add(async () => {
    order.push('register');
    throw new Error('busy');
  });
  closers.add(async () => {
    order.push('door');
  });
  await closers.closeAll();
  await closers.closeAll();
  expect(order).toEqual(['door', 'register', 'disk']);
  expect(failures).toEqual([new Error('busy')]);
});
