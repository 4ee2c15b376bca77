import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { pinNames } from '../../words/index.ts';
import { type Letter, lettersOn, type Shelf } from './letters.ts';
import { Outbox, type Outcome } from './outbox.ts';

function shelfOf(start: string | null = null): Shelf & { text: string | null } {
  return {
    text: start,
    getItem() {
      return this.text;
    },
    setItem(_key, value) {
      this.text = value;
    },
  };
}

const letter = (id: string, job = 'POTS'): Letter => ({
  kind: 'remark',
  job,
  frame: 'f1',
  body: { id, name: 'Ada', point: { x: 0.5, y: 0.5 }, text: id },
});

let outcomes: (letter: Letter) => Promise<Outcome>;
let asked: string[];
const boxes: Outbox[] = [];
beforeEach(() => {
  asked = [];
  outcomes = async () => ({ kind: 'taken' });
});
afterEach(() => {
  for (const box of boxes.splice(0)) box.close();
});

function boxOn(shelf: Shelf, job = 'POTS'): Outbox {
  const box = new Outbox({
    shelf,
    job,
    send: (each) => {
      asked.push(each.body.id);
      return outcomes(each);
    },
    onChange: () => undefined,
    retryMs: [1],
  });
  boxes.push(box);
  return box;
}
const waiting = (shelf: Shelf): string[] => lettersOn(shelf).map(({ letter: { body } }) => body.id);

test('what is written is on the shelf before it is sent, and off it once the station has it', async () => {
  const shelf = shelfOf();
  let seen: string[] = [];
  outcomes = async () => {
    seen = waiting(shelf);
    return { kind: 'taken' };
  };
  const box = boxOn(shelf);
  box.put(letter('letter-1'));
  await vi.waitFor(() => expect(waiting(shelf)).toEqual([]));
  expect(seen).toEqual(['letter-1']);
  expect(box.letters()).toMatchObject([{ sent: true, letter: { body: { id: 'letter-1' } } }]);
  box.heard(new Set(['letter-2']));
  expect(box.letters()).toHaveLength(1);
  box.heard(new Set(['letter-1']));
  expect(box.letters()).toEqual([]);
});

test('while the station does not answer it is tried again, in the order of writing, one at a time', async () => {
  const shelf = shelfOf();
  let failures = 3;
  let atOnce = 0;
  outcomes = async () => {
    atOnce += 1;
    expect(atOnce).toBe(1);
    await Promise.resolve();
    atOnce -= 1;
    failures -= 1;
    return failures >= 0 ? { kind: 'later' } : { kind: 'taken' };
  };
  const box = boxOn(shelf);
  box.put(letter('letter-1'));
  box.put(letter('letter-2'));
  await vi.waitFor(() => expect(waiting(shelf)).toEqual([]));
  expect(asked).toEqual(['letter-1', 'letter-1', 'letter-1', 'letter-1', 'letter-2']);
});

test('a page that is loaded anew sends what the one before it kept; letters of another job wait for theirs', async () => {
  const shelf = shelfOf();
  outcomes = async () => ({ kind: 'later' });
  const first = boxOn(shelf);
  first.put(letter('letter-1'));
  first.put(letter('letter-2', 'OTHER'));
  first.close();
  outcomes = async () => ({ kind: 'taken' });
  asked = [];
  boxOn(shelf).nudge();
  await vi.waitFor(() => expect(waiting(shelf)).toEqual(['letter-2']));
  expect(asked).toEqual(['letter-1']);
});

test('what the station refuses stays with its reason, holds nothing else up, and is tried again or thrown away by hand', async () => {
  const shelf = shelfOf();
  outcomes = async ({ body }) =>
    body.id === 'letter-1' ? { kind: 'refused', words: 'Not shared.' } : { kind: 'taken' };
  const box = boxOn(shelf);
  box.put(letter('letter-1'));
  box.put(letter('letter-2'));
  await vi.waitFor(() => expect(waiting(shelf)).toEqual(['letter-1']));
  expect(box.letters().find(({ sent }) => !sent)?.refusal).toBe('Not shared.');
  box.nudge();
  box.tryAgain('letter-1');
  await vi.waitFor(() => expect(asked.filter((id) => id === 'letter-1')).toHaveLength(2));
  await vi.waitFor(() => expect(box.letters().find(({ sent }) => !sent)?.refusal).toBe('Not shared.'));
  box.throwAway('letter-1');
  expect(waiting(shelf)).toEqual([]);
});

test('a browser that keeps nothing sends all the same', async () => {
  const box = boxOn({
    getItem: () => {
      throw new Error('forbidden');
    },
    setItem: () => {
      throw new Error('full');
    },
  });
  box.put(letter('letter-1'));
  await vi.waitFor(() => expect(box.letters()).toMatchObject([{ sent: true }]));
});

test.each(['nonsense', '{}', '[{"letter":{}}]'])('a shelf that holds %s holds nothing', (text) => {
  expect(lettersOn(shelfOf(text))).toEqual([]);
});

test('pins that guests see are numbered alike on both sides, those of the studio have letters', () => {
  const remark = (id: string, inside: boolean) => ({
    ...{ id, inside, point: null, text: '', at: '', settled: null, answers: [] },
    by: { name: 'Ada', from: 'guest' as const, link: null },
  });
  const all = [remark('a', true), remark('b', false), remark('c', true), remark('d', false)];
  expect([...pinNames(all)]).toEqual([
    ['a', 'a'],
    ['b', '1'],
    ['c', 'b'],
    ['d', '2'],
  ]);
  expect([...pinNames(all.filter(({ inside }) => !inside)).values()]).toEqual(['1', '2']);
  const many = pinNames(Array.from({ length: 28 }, (_, index) => remark(`r${index}`, true)));
  expect([many.get('r25'), many.get('r26'), many.get('r27')]).toEqual(['z', 'aa', 'ab']);
});
