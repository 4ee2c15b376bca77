import { createServer } from 'node:net';
import { expect, test } from 'vitest';
import { endThoughHeld } from './end-though-held.ts';

/** A process whose time comes when the test says so. */
function watched(names: () => string[]): { said: string[]; codes: number[]; due(): void; holds(): boolean } {
  const said: string[] = [];
  const codes: number[] = [];
  let act: (() => void) | null = null;
  let timer: NodeJS.Timeout | null = null;
  endThoughHeld(
    (line) => said.push(line),
    { getActiveResourcesInfo: names, exit: (code) => codes.push(code) },
    (wanted) => {
      act = wanted;
      timer = setTimeout(() => {}, 0);
      return timer;
    },
  );
  return { said, codes, due: () => act?.(), holds: () => timer?.hasRef() ?? true };
}

test('a process that is still held says by what, in order of their coming, and ends', () => {
  const end = watched(() => ['Timeout', 'TCPSocketWrap', 'Timeout']);
  expect(end.said).toEqual([]);
  expect(end.codes).toEqual([]);
  end.due();
  expect(end.said).toEqual([expect.stringContaining('held after 5 s, by 2 Timeout, 1 TCPSocketWrap.')]);
  expect(end.codes).toEqual([0]);
});

test('what holds this very process is named as Node names it', async () => {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const end = watched(() => process.getActiveResourcesInfo());
  end.due();
  server.close();
  // The name is Node's own (net.Server listening), from memory.
  expect(end.said[0]).toMatch(/\d+ TCPServerWrap/);
});

test('it holds no process that could end by itself, and what has no name is not left out', () => {
  const end = watched(() => []);
  expect(end.holds()).toBe(false);
  end.due();
  expect(end.said[0]).toContain('by something without a name');
});
