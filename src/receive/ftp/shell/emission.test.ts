import { Socket } from 'node:net';
import { expect, test } from 'vitest';
import { defaultFtpLimits } from '../core/limits.ts';
import { linesInPieces } from '../core/listing.ts';
import { Emission } from './emission.ts';

/** Takes whatever is written at once, as the system does while its buffer has room. */
class WillingSocket extends Socket {
  bytes = 0;
  override _write(chunk: Uint8Array, _encoding: string, done: () => void): void {
    this.bytes += chunk.length;
    done();
  }
  override _final(done: () => void): void {
    done();
  }
}

test('8.5 a long listing is said one piece in each turn of the event loop, so that others get theirs', async () => {
  let turn = 0;
  const turns: number[] = [];
  let counting = true;
  const count = (): void => {
    turn += 1;
    if (counting) setImmediate(count);
  };
  setImmediate(count);
  const lines = Array.from({ length: 20_000 }, (_, number) => `SET_${number}.DNG`);
  const socket = new WillingSocket();
  const emission = new Emission(
    socket,
    noted(linesInPieces(lines), () => turns.push(turn)),
    defaultFtpLimits,
  );
  expect(await emission.ended).toBe(true);
  counting = false;
  expect(socket.bytes).toBe(lines.join('\r\n').length + 2);
  expect(turns.length).toBeGreaterThan(10);
  expect(new Set(turns).size).toBe(turns.length);
});

function* noted<Item>(items: Iterable<Item>, note: () => void): Generator<Item> {
  for (const item of items) {
    note();
    yield item;
  }
}
