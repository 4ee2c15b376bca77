import { expect, test } from 'vitest';
import { Lane } from './lane.ts';

test('what is asked for while something runs waits for it, and both are waited for', async () => {
  const lane = new Lane();
  const done: string[] = [];
  let openGate = (): void => {};
  const gate = new Promise<void>((resolve) => {
    openGate = resolve;
  });
  const free: boolean[] = [];
  const over = (): void => void free.push(lane.isFree);
  lane.run(() => gate.then(() => void done.push('first')), over);
  lane.run(async () => void done.push('second'), over);
  expect(lane.isFree).toBe(false);
  const through = lane.through();
  await Promise.resolve();
  expect(done).toEqual([]);
  openGate();
  await through;
  expect(done).toEqual(['first', 'second']);
  expect(free).toEqual([false, true]);
});
