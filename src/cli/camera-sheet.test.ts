import { createServer } from 'node:http';
import { afterEach, expect, test, vi } from 'vitest';
import { runCommand } from './run-command.ts';

const closing: (() => void)[] = [];
afterEach(() => {
  vi.restoreAllMocks();
  for (const close of closing.splice(0)) close();
});

/** A station that answers every call with one problem (RFC 9457). */
async function refusing(
  status: number,
  told: { code: string; title: string; detail: string },
): Promise<string> {
  const server = createServer((_request, answer) => {
    answer.writeHead(status, { 'content-type': 'application/problem+json' });
    answer.end(JSON.stringify({ type: 'about:blank', status, cure: null, ...told }));
  }).listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  closing.push(() => server.close());
  const address = server.address();
  return `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}`;
}

function heard(): () => string {
  const said: string[] = [];
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => said.push(String(text)) > 0);
  return () => said.join('');
}

test('a sheet of a camera that is not there: the answer is no, as for its password', async () => {
  const said = heard();
  const title = 'There is no such thing here';
  const station = await refusing(404, {
    code: 'not-found',
    title,
    detail: 'There is no camera of this name.',
  });
  expect(await runCommand(['camera', 'sheet', 'nope', '--station', station])).toBe(1);
  expect(said()).toContain('there is no camera nope');
});

test('what needs a link says so once', async () => {
  const said = heard();
  const title = 'This needs a link from the operator';
  const detail = 'Only the computer the station runs on, or a link from the operator, opens this.';
  const station = await refusing(403, { code: 'link-needed', title, detail });
  expect(await runCommand(['line', '--station', station])).toBe(3);
  expect(said().match(/link from the operator/g)).toHaveLength(1);
});
