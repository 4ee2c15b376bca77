import { expect, test } from 'vitest';
import type { JournalRecord } from '../keep/index.ts';
import { openRegister, type Register } from '../register/index.ts';
import { FrameBook, type JournalSource } from './frame-book.ts';
import { noLimits } from './readings/frame-limits.ts';

/** A journal in memory: what is told is there to be read again. */
class MemoryJournal implements JournalSource {
  readonly #records: JournalRecord[] = [];
  #listener: (record: JournalRecord) => void = () => {};
  #begun: () => void = () => {};
  #mayEnd: Promise<void> = Promise.resolve();

  onRecord(listener: (record: JournalRecord) => void): () => void {
    this.#listener = listener;
    return () => {};
  }

  /** The next pass over the journal ends when it is let go; `begun` once it has looked where the journal ends. */
  hold(): { readonly begun: Promise<void>; readonly go: () => void } {
    let go = (): void => {};
    this.#mayEnd = new Promise((resolve) => {
      go = resolve;
    });
    const begun = new Promise<void>((resolve) => {
      this.#begun = resolve;
    });
    return { begun, go };
  }

  /** Ends where the journal ended when it was asked. */
  async *records(afterSeq = 0): AsyncIterable<JournalRecord> {
    const asOfNow = this.#records.filter(({ seq }) => seq > afterSeq);
    this.#begun();
    await this.#mayEnd;
    yield* asOfNow;
  }

  announce(frame: string): void {
    const seq = this.#records.length + 1;
    const record: JournalRecord = {
      v: 1,
      seq,
      group: seq,
      atMs: seq * 1000,
      type: 'announced',
      arrival: `a-${frame}`,
      frame,
      job: 'unsorted',
      camera: 'cam1',
      path: `/${frame}.DNG`,
      incoming: `${frame}.DNG`,
      via: 'ftp',
      announcedBytes: null,
      prefixOf: null,
      prefixBytes: 0,
      over: null,
    };
    this.#records.push(record);
    this.#listener(record);
  }
}

const nobodySaid = {
  expects: () => null,
  original: () => null,
  copyIsBad: () => false,
  fromFolder: () => false,
  limits: () => noLimits,
  now: () => 0,
};

test('records told before and after the opening are there when a frame is asked for', async () => {
  const journal = new MemoryJournal();
  const register = await openRegister(':memory:');
  journal.announce('before');
  const book = await FrameBook.open(register, journal, nobodySaid);
  journal.announce('after');
  expect((await book.page({ limit: 10 })).frames.map(({ id }) => id)).toEqual(['before', 'after']);
  await register.close();
});

test('while the register cannot be written what it knows is shown, and later nothing is missing', async () => {
  const journal = new MemoryJournal();
  const real = await openRegister(':memory:');
  let full = false;
  const register: Register = {
    ...real,
    apply: (record) => (full ? Promise.reject(new Error('disk full')) : real.apply(record)),
  };
  const book = await FrameBook.open(register, journal, nobodySaid);
  journal.announce('first');
  await book.frame('first');
  full = true;
  journal.announce('second');
  journal.announce('third');
  expect((await book.page({ limit: 10 })).frames.map(({ id }) => id)).toEqual(['first']);
  full = false;
  await expect
    .poll(async () => (await book.page({ limit: 10 })).frames.map(({ id }) => id), { timeout: 10_000 })
    .toEqual(['first', 'second', 'third']);
  book.close();
  await real.close();
});

test('what is told while the register catches up is not passed over', async () => {
  const journal = new MemoryJournal();
  const register = await openRegister(':memory:');
  const pass = journal.hold();
  const opening = FrameBook.open(register, journal, nobodySaid);
  await pass.begun;
  journal.announce('meanwhile');
  pass.go();
  const book = await opening;
  journal.announce('after');
  const ids = (await book.page({ limit: 10 })).frames.map(({ id }) => id);
  expect(ids).toEqual(['meanwhile', 'after']);
  await register.close();
});
