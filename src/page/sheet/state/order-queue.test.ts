import { expect, test } from 'vitest';
import { OrderQueue, type SayOrder } from './order-queue.ts';

interface Said {
  readonly shot: string;
  readonly order: string;
  readonly version: number;
  readonly answer: (version: number) => void;
  readonly refuse: () => void;
}

function listening(): { readonly queue: OrderQueue; readonly said: Said[] } {
  const said: Said[] = [];
  const say: SayOrder = (shot, order, version) =>
    new Promise((answer, refuse) => {
      said.push({ shot, order: order.join(''), version, answer, refuse: () => refuse(new Error('stale')) });
    });
  return { queue: new OrderQueue(say), said };
}

const drawn = (order: string, version: number) => ({ order: [...order], version });

test('a second step counts from the first, and goes out with the version that the first was answered with', async () => {
  const { queue, said } = listening();
  const first = queue.ask('mug', [...'bac'], drawn('abc', 4));
  expect(queue.standing('mug', drawn('abc', 4)).join('')).toBe('bac');
  const second = queue.ask('mug', [...'bca'], drawn('abc', 4));
  await Promise.resolve();
  expect(said.map(({ order, version }) => [order, version])).toEqual([['bac', 4]]);
  said[0]?.answer(5);
  await first;
  await expect.poll(() => said.length).toBe(2);
  expect(said[1]).toMatchObject({ order: 'bca', version: 5 });
  // The first is drawn, the second is not answered yet.
  expect(queue.standing('mug', drawn('bac', 5)).join('')).toBe('bca');
  said[1]?.answer(6);
  await second;
  expect(queue.standing('mug', drawn('bac', 5)).join('')).toBe('bca');
  expect(queue.standing('mug', drawn('bca', 6)).join('')).toBe('bca');
});

test('what somebody else did meanwhile is told, and what was asked behind it falls', async () => {
  const { queue, said } = listening();
  const first = queue.ask('mug', [...'bac'], drawn('abc', 4));
  const second = queue.ask('mug', [...'bca'], drawn('abc', 4));
  await Promise.resolve();
  said[0]?.refuse();
  await expect(first).rejects.toThrow('stale');
  await second;
  expect(said.length).toBe(1);
  expect(queue.standing('mug', drawn('cab', 5)).join('')).toBe('cab');
  const third = queue.ask('mug', [...'acb'], drawn('cab', 5));
  await expect.poll(() => said.length).toBe(2);
  expect(said[1]).toMatchObject({ version: 5 });
  said[1]?.answer(6);
  await third;
});

test('the version is the drawn one where all is answered, and a frame that is chosen since joins the order', async () => {
  const { queue, said } = listening();
  const first = queue.ask('mug', [...'ba'], drawn('ab', 4));
  await Promise.resolve();
  said[0]?.answer(5);
  await first;
  expect(queue.standing('mug', drawn('abc', 4)).join('')).toBe('abc');
  const second = queue.ask('mug', [...'acb'], drawn('bac', 9));
  await expect.poll(() => said.length).toBe(2);
  expect(said[1]?.version).toBe(9);
  said[1]?.answer(10);
  await second;
});
