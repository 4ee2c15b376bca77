import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { emptyFolder, SftpTalk, uint32Bytes } from '../../testing/sftp-talk.ts';
import { WireWriter } from './wire.ts';

/** draft-ietf-secsh-filexfer-02 section 6.3. */
const flags = { read: 1, write: 2, append: 4, create: 8, truncate: 16, exclusive: 32 };
const anew = flags.write | flags.create | flags.truncate;
const goOn = flags.write | flags.create;
/** Section 7. */
const status = { ok: 0, noSuchFile: 2, denied: 3, failure: 4, badMessage: 5, unsupported: 8 };

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);

function openAnew(talk: SftpTalk): number {
  return talk.handleOf(talk.greet().open('/X.DNG', anew));
}

const heldFile = (sizeBytes: number): SftpTalk =>
  new SftpTalk({
    ...emptyFolder,
    stat: () => ({ ok: true, value: { name: 'X.DNG', kind: 'file', sizeBytes, modifiedMs: 0 } }),
    open: ({ how: { at } }) => ({
      ok: true,
      value: { offsetBytes: at === 'start' ? 0 : at === 'end' ? sizeBytes : at.offsetBytes },
    }),
  });

const openedAt = (talk: SftpTalk): unknown[] =>
  talk.asked
    .filter(({ name }) => name === 'open')
    // By the name it is the request of an open.
    .map(({ request }) => (request as { how: { at: unknown } }).how.at);

describe('writing', () => {
  test('11.2 bytes are handed on in their order, in whatever order they come', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7], { minLength: 8, maxLength: 8 }),
        fc.integer({ min: 1, max: 5 }),
        (order, size) => {
          const talk = new SftpTalk();
          const handle = openAnew(talk);
          for (const block of order) {
            talk.write(handle, block * size, new Uint8Array(size).fill(block));
          }
          const closed = talk.close(handle);
          const expected = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((block) => Array<number>(size).fill(block));
          expect(talk.written).toEqual(expected);
          expect(talk.saidTo(closed)?.code).toBe(status.ok);
        },
      ),
    );
  });

  test('11.2 a gap at the close fails it, and the file is given up at the gap', () => {
    const talk = new SftpTalk();
    const handle = openAnew(talk);
    talk.write(handle, 0, bytes(1, 2));
    talk.write(handle, 3, bytes(4));
    const closed = talk.close(handle);
    expect(talk.written).toEqual([1, 2]);
    expect(talk.saidTo(closed)).toMatchObject({
      code: status.failure,
      words: expect.stringMatching(/missing/),
    });
    expect(talk.asked.at(-1)).toMatchObject({ name: 'finish', request: { end: 'aborted' } });
    expect(talk.codes).toContain('line.upload-out-of-order');
  });

  test('11.2 bytes that have come are not changed, and the close says so too', () => {
    const talk = new SftpTalk();
    const handle = openAnew(talk);
    talk.write(handle, 0, bytes(1, 2));
    const again = talk.write(handle, 1, bytes(9));
    const more = talk.write(handle, 2, bytes(3));
    const closed = talk.close(handle);
    expect([again, more, closed].map((id) => talk.saidTo(id)?.code)).toEqual([4, 4, 4]);
    expect(talk.written).toEqual([1, 2]);
  });

  test('11.2 bytes that fill a gap and reach into what waits behind it are refused', () => {
    const talk = new SftpTalk();
    const handle = openAnew(talk);
    talk.write(handle, 2, bytes(3));
    const filled = talk.write(handle, 0, bytes(1, 2, 9));
    expect(talk.saidTo(filled)?.code).toBe(status.failure);
  });

  test('11.3 a file that is there goes on where its first byte says', () => {
    for (const [offset, at] of [
      [0, 'start'],
      [3, { offsetBytes: 3 }],
      [5, { offsetBytes: 5 }],
      [6, 'end'],
    ] as const) {
      const talk = heldFile(5);
      const handle = talk.handleOf(talk.greet().open('/X.DNG', goOn));
      expect(openedAt(talk)).toEqual([]);
      talk.write(handle, offset, bytes(1));
      expect(openedAt(talk)).toEqual([at]);
    }
  });

  test('11.3 with APPEND the offset says nothing', () => {
    const talk = heldFile(5);
    const handle = talk.handleOf(talk.greet().open('/X.DNG', goOn | flags.append));
    talk.write(handle, 0, bytes(6));
    talk.write(handle, 0, bytes(7));
    expect(openedAt(talk)).toEqual(['end']);
    expect(talk.written).toEqual([6, 7]);
  });

  test('11.3 opened and closed without a byte, a file that is there stays as it is', () => {
    const talk = heldFile(5);
    const handle = talk.handleOf(talk.greet().open('/X.DNG', goOn));
    expect(talk.saidTo(talk.close(handle))?.code).toBe(status.ok);
    expect(talk.asked.map(({ name }) => name)).toEqual(['stat']);
  });

  test('11.5 a size below what has come means that the client gives up', () => {
    const talk = new SftpTalk();
    const handle = openAnew(talk);
    talk.write(handle, 0, bytes(1, 2, 3));
    const size = (sizeBytes: number): number =>
      talk.send(10, (writer) => writer.string(uint32Bytes(handle)).uint32(1).uint64(sizeBytes));
    expect([3, 4, 2].map((sizeBytes) => talk.saidTo(size(sizeBytes))?.code)).toEqual([
      status.ok,
      status.unsupported,
      status.failure,
    ]);
    expect(talk.saidTo(talk.close(handle))?.code).toBe(status.failure);
    expect(talk.asked.at(-1)).toMatchObject({ name: 'finish', request: { end: 'aborted' } });
  });

  test('a disk that failed is told by the next write and by the close', () => {
    const talk = new SftpTalk({
      ...emptyFolder,
      finish: () => ({ kind: 'failed', code: 'disk-full', sizeBytes: 2 }),
    });
    const handle = openAnew(talk);
    talk.write(handle, 0, bytes(1));
    talk.event({ kind: 'write-failed', handle, code: 'disk-full' });
    const next = talk.write(handle, 1, bytes(2));
    const closed = talk.close(handle);
    for (const id of [next, closed]) {
      expect(talk.saidTo(id)).toMatchObject({ code: status.failure, words: expect.stringMatching(/full/) });
    }
  });

  test('11.1 the close is answered by what became of the file', () => {
    const outcomes = [
      [{ kind: 'kept', wholeness: 'unknown', sizeBytes: 1 }, status.ok],
      [{ kind: 'kept-damaged', sizeBytes: 1, expectedBytes: 2 }, status.ok],
      [{ kind: 'broken-off', sizeBytes: 1, expectedBytes: 2 }, status.failure],
      [{ kind: 'failed', code: 'disk-failed', sizeBytes: 1 }, status.failure],
    ] as const;
    for (const [outcome, code] of outcomes) {
      const talk = new SftpTalk({ ...emptyFolder, finish: () => outcome });
      expect(talk.saidTo(talk.close(openAnew(talk)))?.code).toBe(code);
    }
  });
});

describe('order', () => {
  test('11.8 a close that waits for the disk holds up no other file', () => {
    const { finish: _, ...unfinished } = emptyFolder;
    const talk = new SftpTalk(unfinished);
    const slow = openAnew(talk);
    const closed = talk.close(slow);
    const other = talk.handleOf(talk.open('/Y.DNG', anew));
    const written = talk.write(other, 0, bytes(7));
    expect(talk.saidTo(written)?.code).toBe(status.ok);
    expect(talk.saidTo(closed)).toBeUndefined();
    const ask = talk.asked.find(({ name }) => name === 'finish')?.ask ?? 0;
    talk.answer(ask, { kind: 'kept', wholeness: 'whole', sizeBytes: 0 });
    expect(talk.saidTo(closed)?.code).toBe(status.ok);
  });

  test('nothing is heard of a handle after its close', () => {
    const talk = new SftpTalk();
    const handle = openAnew(talk);
    talk.close(handle);
    expect(talk.saidTo(talk.write(handle, 0, bytes(1)))?.code).toBe(status.failure);
    expect(talk.saidTo(talk.close(handle))?.code).toBe(status.failure);
  });
});

describe('the end of a session', () => {
  test('11.4 files that were not closed break off, those being closed are not ended twice', () => {
    const { finish: _, ...unfinished } = emptyFolder;
    const talk = new SftpTalk(unfinished);
    const closing = openAnew(talk);
    talk.close(closing);
    talk.open('/Y.DNG', anew);
    talk.event({ kind: 'ended', end: 'control-lost' });
    const finishes = talk.asked.filter(({ name }) => name === 'finish');
    expect(finishes.map(({ request }) => request)).toMatchObject([
      { end: 'closed' },
      { end: 'control-lost' },
    ]);
    expect(talk.session.isOver).toBe(false);
    for (const { ask } of finishes)
      talk.answer(ask, { kind: 'broken-off', sizeBytes: 0, expectedBytes: null });
    expect(talk.session.isOver).toBe(true);
  });

  test('11.4 a file that was being opened when the client left is ended once it is open', () => {
    const { open: _, ...unopened } = emptyFolder;
    for (const there of [false, true]) {
      const talk = there
        ? new SftpTalk({
            ...unopened,
            stat: () => ({ ok: true, value: { name: 'X', kind: 'file', sizeBytes: 5, modifiedMs: 0 } }),
          })
        : new SftpTalk(unopened);
      const id = talk.greet().open('/X.DNG', there ? goOn : anew);
      if (there) talk.write(talk.handleOf(id), 0, bytes(1));
      talk.event({ kind: 'ended', end: 'control-lost' });
      expect(talk.session.isOver).toBe(false);
      talk.answer(talk.asked.find(({ name }) => name === 'open')?.ask ?? 0, {
        ok: true,
        value: { offsetBytes: 0 },
      });
      expect(talk.asked.filter(({ name }) => name === 'finish')).toHaveLength(1);
      expect(talk.session.isOver).toBe(true);
    }
  });

  test('11.13 a file that gives way is ended, and its handle is gone', () => {
    const talk = new SftpTalk();
    const handle = openAnew(talk);
    talk.event({ kind: 'given-way', handle, end: 'stalled' });
    expect(talk.asked.at(-1)).toMatchObject({ name: 'finish', request: { end: 'stalled' } });
    expect(talk.saidTo(talk.write(handle, 0, bytes(1)))?.code).toBe(status.failure);
  });
});

describe('while a file is being opened', () => {
  const opening = (): { talk: SftpTalk; opened: () => void } => {
    const { open: _, ...unopened } = emptyFolder;
    const talk = new SftpTalk(unopened);
    talk.greet().open('/X.DNG', anew);
    const { ask } = talk.asked.find(({ name }) => name === 'open') ?? { ask: 0 };
    return { talk, opened: () => talk.answer(ask, { ok: true, value: { offsetBytes: 0 } }) };
  };
  const endsOf = (talk: SftpTalk): unknown[] =>
    talk.asked
      .filter(({ name }) => name === 'finish')
      .map(({ request }) => (request as { end: unknown }).end);

  test('one that has to give way is ended once it is open, and the session can be over', () => {
    const { talk, opened } = opening();
    talk.event({ kind: 'given-way', handle: 1, end: 'stalled' });
    expect(endsOf(talk)).toEqual([]);
    opened();
    expect(endsOf(talk)).toEqual(['stalled']);
    talk.event({ kind: 'ended', end: 'control-lost' });
    expect(talk.session.isOver).toBe(true);
  });

  test('its handle, guessed, closes nothing', () => {
    const { talk, opened } = opening();
    expect(talk.saidTo(talk.close(1))?.code).toBe(status.failure);
    opened();
    talk.event({ kind: 'ended', end: 'control-lost' });
    expect(endsOf(talk)).toEqual(['control-lost']);
  });
});

describe('what is refused', () => {
  test('11.7 files are not read, links are not made', () => {
    const talk = new SftpTalk().greet();
    expect(talk.saidTo(talk.open('/X.DNG', flags.read))?.code).toBe(status.denied);
    const handle = talk.handleOf(talk.open('/Y.DNG', anew));
    const read = talk.send(5, (writer) => writer.string(uint32Bytes(handle)).uint64(0).uint32(9));
    const link = talk.send(20, (writer) => writer.text('/a').text('/b'));
    const readLink = talk.send(19, (writer) => writer.text('/a'));
    expect([read, link, readLink].map((id) => talk.saidTo(id)?.code)).toEqual([3, 8, 8]);
  });

  test('11.7 posix-rename hides what has the name, rename does not', () => {
    const taken = new Set(['/b']);
    const talk = new SftpTalk({
      rename: ({ to }) => (taken.has(to) ? { ok: false, code: 'exists' } : { ok: true, value: null }),
      hide: ({ path }) => ({ ok: taken.delete(path), value: null, code: 'not-found' }) as never,
    }).greet();
    const plain = talk.send(18, (writer) => writer.text('/a').text('/b'));
    const posix = talk.send(200, (writer) => writer.text('posix-rename@openssh.com').text('/a').text('/b'));
    expect([plain, posix].map((id) => talk.saidTo(id)?.code)).toEqual([status.failure, status.ok]);
    expect(talk.codes).toEqual(['line.refused-command', 'line.taken-out', 'line.renamed']);
  });

  test('11.7 a file that is taken out or renamed is told in the log, and what is refused is not', () => {
    const talk = new SftpTalk({
      rename: ({ from }) => (from === '/a' ? { ok: true, value: null } : { ok: false, code: 'not-found' }),
      hide: ({ path }) => (path === '/a' ? { ok: true, value: null } : { ok: false, code: 'not-found' }),
    }).greet();
    for (const name of ['/a', '/b']) talk.send(18, (writer) => writer.text(name).text('/c'));
    for (const name of ['/a', '/b']) talk.send(13, (writer) => writer.text(name));
    const refused = 'line.refused-command';
    expect(talk.codes).toEqual(['line.renamed', refused, 'line.taken-out', refused]);
  });

  test('OPEN asks for what must be there, and not there', () => {
    const talk = new SftpTalk().greet();
    expect(talk.saidTo(talk.open('/X.DNG', flags.write))?.code).toBe(status.noSuchFile);
    const intoNowhere = talk.saidTo(talk.open('/no/X.DNG', anew));
    expect(intoNowhere?.code).toBe(status.noSuchFile);
    expect(intoNowhere?.words).toMatch(/no such folder.*enter \/ as its folder/);
    expect(talk.saidTo(talk.open('/', anew))?.code).toBe(status.failure);
    const held = heldFile(5).greet();
    expect(held.saidTo(held.open('/X.DNG', goOn | flags.exclusive))?.code).toBe(status.failure);
  });

  test('unknown requests and unknown handles are told so', () => {
    const talk = new SftpTalk().greet();
    const unknown = talk.send(99, (writer) => writer);
    const extension = talk.send(200, (writer) => writer.text('copy-data'));
    expect([unknown, extension].map((id) => talk.saidTo(id)?.code)).toEqual([8, 8]);
    expect(talk.saidTo(talk.close(77))?.code).toBe(status.failure);
    expect(talk.saidTo(talk.send(4, (writer) => writer.text('long handle')))?.code).toBe(status.failure);
  });

  test('a request cut short is a bad message', () => {
    const talk = new SftpTalk().greet();
    expect(talk.saidTo(talk.send(3, (writer) => writer.uint32(99)))?.code).toBe(status.badMessage);
    expect(
      talk.saidTo(talk.send(6, (writer) => writer.string(uint32Bytes(1)).uint64(0).uint32(9)))?.code,
    ).toBe(status.badMessage);
  });

  test('whoever does not begin with INIT, or begins twice, does not speak SFTP', () => {
    const talk = new SftpTalk();
    talk.open('/X.DNG', anew);
    expect([talk.hungUp, talk.said]).toEqual([true, []]);
    const twice = new SftpTalk().greet().greet();
    expect(twice.hungUp).toBe(true);
  });
});

describe('bounds', () => {
  test('11.11 handles: as many as the limit are open, the next is refused until one is closed', () => {
    const talk = new SftpTalk(emptyFolder, { handlesMax: 2 }).greet();
    const [first, second, third] = ['/a', '/b', '/c'].map((path) => talk.open(path, anew));
    expect([first, second].map((id) => talk.saidTo(id ?? 0)?.type)).toEqual(['handle', 'handle']);
    expect(talk.saidTo(third ?? 0)?.code).toBe(status.failure);
    talk.close(talk.handleOf(first ?? 0));
    expect(talk.saidTo(talk.open('/c', anew))?.type).toBe('handle');
  });

  test('11.11 requests: one below the limit another is wanted, at the limit none', () => {
    const talk = new SftpTalk({}, { requestsMax: 3 }).greet();
    const wanted = [1, 2, 3].map(() => {
      talk.open('/X.DNG', anew);
      return talk.session.wantsInput;
    });
    expect(wanted).toEqual([true, true, false]);
    talk.answer(talk.asked[0]?.ask ?? 0, { ok: false, code: 'busy' });
    expect(talk.session.wantsInput).toBe(true);
  });

  test('11.11 writes behind an opening: one below the limit another is wanted, at the limit none', () => {
    const { open: _, ...unopened } = emptyFolder;
    const held = { name: 'X', kind: 'file', sizeBytes: 5, modifiedMs: 0 } as const;
    const talk = new SftpTalk(
      { ...unopened, stat: () => ({ ok: true, value: held }) },
      { requestsPerHandleMax: 2 },
    );
    const handle = talk.handleOf(talk.greet().open('/X.DNG', goOn));
    talk.write(handle, 0, bytes(1));
    expect(talk.session.wantsInput).toBe(true);
    talk.write(handle, 1, bytes(2));
    expect(talk.session.wantsInput).toBe(false);
    talk.answer(talk.asked.at(-1)?.ask ?? 0, { ok: true, value: { offsetBytes: 0 } });
    expect([talk.session.wantsInput, talk.written]).toEqual([true, [1, 2]]);
  });

  test('whatever bytes come, a session answers or hangs up and throws nothing', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ minLength: 1, maxLength: 60 }), { maxLength: 12 }), (packets) => {
        const talk = new SftpTalk();
        openAnew(talk);
        for (const packet of packets) {
          const [type = 0, ...rest] = packet;
          const writer = new WireWriter(type % 24 === 1 ? 3 : type % 24);
          for (const byte of rest) writer.uint8(byte);
          talk.bytes(writer.packet());
        }
        talk.event({ kind: 'ended', end: 'control-lost' });
        expect(talk.session.isOver).toBe(true);
      }),
    );
  });
});
