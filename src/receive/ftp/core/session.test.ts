import fc from 'fast-check';
import { expect, test } from 'vitest';
import { knownCodes, sentence } from '../../../words/index.ts';
import { easyScript, Talk } from '../../testing/talk.ts';
import { commands } from './commands/table.ts';
import { defaultFtpLimits } from './limits.ts';

const startStore = (talk: Talk, line = 'STOR x'): void => {
  talk.say('PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say(line);
};

test('2.1 lines that come while a command runs wait, and their replies keep the order', () => {
  const talk = Talk.loggedIn();
  startStore(talk);
  talk.say('NOOP', 'PWD');
  expect(talk.codes).toEqual([227, 150]);
  talk.answer({ end: 'closed', bytes: 5 });
  expect(talk.codes).toEqual([227, 150, 226, 200, 257]);
});

test('2.1 thirty-two lines may wait; then the session wants no more until some are done', () => {
  const talk = Talk.loggedIn();
  startStore(talk);
  for (let line = 1; line < defaultFtpLimits.waitingLinesMax; line += 1) talk.say('NOOP');
  expect(talk.session.wantsInput).toBe(true);
  talk.say('NOOP');
  expect(talk.session.wantsInput).toBe(false);
  talk.answer({ end: 'closed', bytes: 5 });
  expect(talk.session.wantsInput).toBe(true);
});

test('2.2 ABOR interrupts the transfer at once, whatever waits before it, and is answered in its turn', () => {
  const talk = Talk.loggedIn({
    ...easyScript,
    finish: () => ({ kind: 'broken-off', sizeBytes: 3, expectedBytes: null }),
  });
  startStore(talk);
  talk.say('NOOP', 'ABOR');
  expect(talk.wishes).toContainEqual({ kind: 'interrupt', why: 'aborted' });
  talk.answer({ end: 'aborted', bytes: 3 });
  expect(talk.codes).toEqual([227, 150, 426, 200, 226]);
});

test('2.2 ABOR that comes before the bytes do ends the transfer as soon as it begins', () => {
  const talk = Talk.loggedIn({ ...easyScript, open: undefined });
  startStore(talk);
  expect(talk.question).toBe('open');
  talk.say('ABOR');
  expect(talk.count('interrupt')).toBe(0);
  talk.answer({ ok: true, value: { offsetBytes: 0 } });
  expect(talk.wishes).toContainEqual({ kind: 'interrupt', why: 'aborted' });
});

test('2.2 ABOR while the file is being made durable comes too late: the file is kept', () => {
  const talk = Talk.loggedIn({ ...easyScript, finish: undefined });
  startStore(talk);
  talk.answer({ end: 'closed', bytes: 5 });
  expect(talk.question).toBe('finish');
  talk.say('ABOR');
  expect(talk.count('interrupt')).toBe(0);
  expect(talk.codes).toEqual([227, 150]);
  talk.answer({ kind: 'kept', wholeness: 'whole', sizeBytes: 5 });
  expect(talk.codes).toEqual([227, 150, 226, 226]);
});

test('2.2 STAT during a transfer is answered at once with the bytes so far', () => {
  const talk = Talk.loggedIn();
  startStore(talk);
  talk.say('STAT');
  expect(talk.said).toContain('7 bytes transferred so far');
});

test('2.2 STAT while what came is made durable is answered at once, and NOOP after the 226', () => {
  const talk = Talk.loggedIn({ ...easyScript, finish: undefined });
  startStore(talk);
  talk.answer({ end: 'closed', bytes: 5 });
  talk.say('NOOP', 'STAT');
  expect(talk.codes).toEqual([227, 150, 211]);
  expect(talk.said).toContain('7 bytes received, now being made durable');
  talk.answer({ kind: 'kept', wholeness: 'whole', sizeBytes: 5 });
  expect(talk.codes).toEqual([227, 150, 211, 226, 200]);
});

test('4.1 the delay before a wrong log-in is answered doubles with the failures of the address, up to its end', () => {
  const delays: unknown[] = [];
  for (const failures of [1, 2, 3, 5, 9]) {
    const talk = new Talk({
      'log-in': () => ({ camera: null, failures }),
      pause: ({ request }) => {
        delays.push('ms' in request ? request.ms : null);
        return null;
      },
    });
    talk.say('USER a', 'PASS b');
  }
  expect(delays).toEqual([500, 1000, 2000, 8000, 8000]);
});

test('4.1 the delay is counted from the line, however long the log-in was looked at', () => {
  const pauses: unknown[] = [];
  const talk = new Talk({
    pause: ({ request }) => {
      pauses.push(request);
      return null;
    },
  });
  const saidMs = talk.nowMs;
  talk.say('USER a', 'PASS b');
  talk.later(250);
  talk.answer({ camera: null, failures: 1 });
  expect(pauses).toEqual([{ ms: 500, sinceMs: saidMs }]);
});

test('4.2 the fourth wrong log-in ends the session, or the first beyond the limit of the address', () => {
  const wrong = (failures: number) =>
    new Talk({ ...easyScript, 'log-in': () => ({ camera: null, failures }) });
  const patient = wrong(1);
  for (let attempt = 1; attempt <= 4; attempt += 1) patient.say('USER a', 'PASS b');
  expect(patient.codes).toEqual([220, 331, 530, 331, 530, 331, 530, 331, 421]);
  expect(patient.session.isOver).toBe(true);
  const at = wrong(defaultFtpLimits.loginFailuresPerMinuteMax);
  at.say('USER a', 'PASS b');
  expect(at.session.isOver).toBe(false);
  const beyond = wrong(defaultFtpLimits.loginFailuresPerMinuteMax + 1);
  beyond.say('USER a', 'PASS b');
  expect(beyond.session.isOver).toBe(true);
});

test('4.3 without a log-in the session lives 60 s, whatever is said, and not a moment longer', () => {
  const talk = new Talk();
  talk.later(defaultFtpLimits.loginMs - 1);
  talk.say('NOOP', 'USER a');
  expect(talk.session.isOver).toBe(false);
  talk.later(1);
  expect([talk.codes.at(-1), talk.session.isOver]).toEqual([421, true]);
});

test('4.3 before the log-in no command asks the folder or the network for anything', () => {
  for (const [verb, command] of commands) {
    if (verb === 'PASS' || verb === 'QUIT') continue;
    const talk = new Talk({});
    talk.say(`${verb} x`);
    expect(talk.count('ask'), verb).toBe(0);
    if (command.needs === 'login') expect(talk.codes, verb).toEqual([220, 530]);
  }
});

test('4.5 a logged-in client is closed after 15 minutes of silence, counted from its last command', () => {
  const talk = Talk.loggedIn();
  talk.later(defaultFtpLimits.idleMs - 1);
  talk.say('NOOP');
  talk.later(defaultFtpLimits.idleMs - 1);
  expect(talk.session.isOver).toBe(false);
  talk.later(1);
  expect([talk.codes.at(-1), talk.session.isOver]).toEqual([421, true]);
});

test('4.5 a running transfer is not silence, however long', () => {
  const talk = Talk.loggedIn();
  startStore(talk);
  expect(talk.session.alarmAtMs).toBeNull();
  talk.later(10 * defaultFtpLimits.idleMs);
  talk.answer({ end: 'closed', bytes: 5 });
  expect(talk.codes.at(-1)).toBe(226);
  expect(talk.session.isOver).toBe(false);
});

test('5.1 PASV tells the address the client reached us by, EPSV only the port (RFC 959, RFC 2428)', () => {
  const talk = Talk.loggedIn();
  talk.say('PASV', 'EPSV', 'EPSV 1', 'EPSV 2');
  // 50001 = 195 * 256 + 81.
  expect(talk.said).toContain('(192,0,2,1,195,81)');
  expect(talk.said).toContain('(|||50001|)');
  expect(talk.codes).toEqual([227, 229, 229, 522]);
});

test('5.1 an IPv6 client gets EPSV and is told so when it asks for PASV', () => {
  const talk = new Talk(easyScript, {}, '2001:db8::1');
  talk.say('USER a', 'PASS b', 'PASV', 'EPSV 1', 'EPSV 2');
  expect(talk.codes.slice(-3)).toEqual([522, 522, 229]);
});

test('5.1 where no port is free PASV is 425 and STOR finds no way', () => {
  const talk = Talk.loggedIn({ ...easyScript, listen: () => null });
  talk.say('PASV', 'STOR x');
  expect(talk.codes).toEqual([425, 425]);
});

test('5.3 a data connection that never comes costs nothing that was here', () => {
  const talk = Talk.loggedIn();
  talk.say('EPSV', 'STOR x');
  expect(talk.codes).toEqual([229, 150]);
  talk.later(defaultFtpLimits.dataConnectMs - 1);
  expect(talk.count('interrupt')).toBe(0);
  talk.later(1);
  expect(talk.wishes).toContainEqual({ kind: 'interrupt', why: 'no-connection' });
  talk.answer(false);
  expect(talk.codes).toEqual([229, 150, 425]);
  expect(talk.wishes.some((wish) => wish.kind === 'ask' && wish.question.name === 'open')).toBe(false);
  expect(talk.reports).toContain('line.no-data-connection');
});

test('5.3 a client that was given a data port and leaves without reaching it has its line in the log', () => {
  const talk = Talk.loggedIn();
  talk.say('EPSV', 'PASV', 'QUIT');
  expect(talk.reports.filter((code) => code === 'line.no-data-connection')).toHaveLength(1);
  const reaching = Talk.loggedIn();
  reaching.say('PASV');
  reaching.feed({ kind: 'data-connected' });
  reaching.say('QUIT');
  expect(reaching.reports).not.toContain('line.no-data-connection');
});

test('5.5 a dial that nobody answers in time is told as a dial, not as a passive port that is shut', () => {
  const talk = Talk.loggedIn({ ...easyScript, aim: () => null });
  talk.say('PORT 192,0,2,9,195,80', 'STOR x');
  talk.later(defaultFtpLimits.dataConnectMs);
  talk.answer(false);
  expect(talk.codes.at(-1)).toBe(425);
  expect(talk.reports).toContain('line.cannot-dial');
  expect(talk.reports).not.toContain('line.no-data-connection');
});

test('5.4 a data connection carries one transfer', () => {
  const talk = Talk.loggedIn();
  startStore(talk);
  talk.answer({ end: 'closed', bytes: 5 });
  talk.say('STOR y');
  expect(talk.codes).toEqual([227, 150, 226, 425]);
});

test('6.1 nothing but the folder saying kept makes a 226, and it comes after that', () => {
  const outcomes = [
    [{ kind: 'kept', wholeness: 'unknown', sizeBytes: 5 }, 'closed', 226],
    [{ kind: 'kept-damaged', sizeBytes: 5, expectedBytes: 9 }, 'closed', 226],
    [{ kind: 'broken-off', sizeBytes: 5, expectedBytes: 9 }, 'closed', 451],
    [{ kind: 'broken-off', sizeBytes: 5, expectedBytes: null }, 'reset', 426],
    [{ kind: 'broken-off', sizeBytes: 5, expectedBytes: null }, 'stalled', 426],
    [{ kind: 'failed', code: 'disk-full', sizeBytes: 5 }, 'failed', 452],
    [{ kind: 'failed', code: 'disk-failed', sizeBytes: 5 }, 'failed', 451],
  ] as const;
  for (const [outcome, end, code] of outcomes) {
    const talk = Talk.loggedIn({ ...easyScript, finish: undefined });
    startStore(talk);
    talk.answer({ end, bytes: 5 });
    expect(talk.codes).toEqual([227, 150]);
    talk.answer(outcome);
    expect(talk.codes).toEqual([227, 150, code]);
  }
});

test('6.4 each refusal of the folder has its reply, and the data connection is given up', () => {
  const refusals = [
    ['not-found', 550],
    ['not-a-file', 550],
    ['offset-beyond-end', 554],
    ['disk-full', 452],
    ['disk-failed', 451],
    ['busy', 450],
    ['too-many', 450],
  ] as const;
  for (const [code, replied] of refusals) {
    const talk = Talk.loggedIn({ ...easyScript, open: () => ({ ok: false, code }) });
    startStore(talk);
    expect(talk.codes, code).toEqual([227, replied]);
    expect(talk.count('close-data'), code).toBe(1);
  }
});

test('6.4 of a file for a folder that is not there, camera and log are told the same: what to do', () => {
  const talk = Talk.loggedIn();
  talk.say('PASV', 'STOR gone/a.jpg');
  const advice = 'There is no such folder. Let the camera make it, or enter / as its folder.';
  expect(talk.said).toContain(`550 ${advice}\r\n`);
  const refused = talk.wishes.flatMap((wish) => (wish.kind === 'report' ? sentence(wish.finding) : []));
  expect(refused).toEqual([`STOR of a.jpg was refused with 550: t${advice.slice(1)}`]);
});

test('6.4 a client that looks for a folder that is not there is told what to do, and the log if it leaves without a file', () => {
  const left = (...lines: readonly string[]): string[] => {
    const talk = Talk.loggedIn();
    talk.say('CWD gone', ...lines);
    expect(talk.said).toMatch(/^550 There is no such folder\..*enter \/ as its folder/);
    talk.say('QUIT');
    return talk.wishes.flatMap((wish) => (wish.kind === 'report' ? sentence(wish.finding) : []));
  };
  expect(left()[0]).toBe(
    'CWD of gone was refused with 550: there is no such folder. Let the camera make it, or enter / as its folder.',
  );
  expect(left('MKD gone')).toHaveLength(1);
});

test('6.4 a client that takes a file for its folder and leaves without sending one has its line in the log', () => {
  const talk = Talk.loggedIn();
  talk.say('CWD f', 'QUIT');
  const refused = talk.wishes.flatMap((wish) => (wish.kind === 'report' ? sentence(wish.finding) : []));
  expect(refused[0]).toMatch(/^CWD of f was refused with 550: .*file/);
});

test('6.4 a file that a full disk stops is told by its name, its place and how much of it is there', () => {
  const talk = Talk.loggedIn({
    ...easyScript,
    finish: () => ({ kind: 'failed', code: 'disk-full', sizeBytes: 150_000_000 }),
  });
  talk.say('CWD d');
  startStore(talk);
  talk.answer({ end: 'failed', bytes: 150_000_000 });
  expect(talk.wishes.flatMap((wish) => (wish.kind === 'report' ? wish.finding : [])).at(-1)).toEqual({
    code: 'line.disk-full',
    args: { name: 'x', path: '/d/x', bytes: 150_000_000, why: 'failed' },
  });
});

test('6.5 a file that is taken out, renamed or moved is told in the log, and what is refused is not', () => {
  const talk = Talk.loggedIn();
  talk.say('DELE f', 'RNFR f', 'RNTO g', 'RNFR f', 'RNTO d/f', 'RNFR f', 'RNTO f');
  const told = talk.wishes.flatMap((wish) => (wish.kind === 'report' ? sentence(wish.finding) : []));
  expect(told).toEqual([
    'f was taken out of its folder by the camera: what came of it stays kept here.',
    'f was renamed to g by the camera: what is kept stays as it is.',
    '/f was renamed to /d/f by the camera: what is kept stays as it is.',
  ]);
  const no = (): unknown => ({ ok: false, code: 'not-found' });
  const refusing = Talk.loggedIn({ ...easyScript, hide: no, rename: no });
  refusing.say('DELE f', 'RNFR f', 'RNTO g');
  expect(refusing.reports).toEqual([]);
});

test('6.5 transfer parameters may stand between REST and STOR, as clients send them; anything else forgets it', () => {
  const offsets: unknown[] = [];
  const script = {
    ...easyScript,
    open: (question: Parameters<NonNullable<typeof easyScript.open>>[0]) => {
      offsets.push('how' in question.request ? question.request.how.at : null);
      return { ok: false, code: 'busy' };
    },
  };
  const talk = Talk.loggedIn(script);
  talk.say('REST 5', 'TYPE I', 'PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say('STOR f', 'PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say('REST 5', 'NOOP', 'STOR f', 'PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say('REST 0', 'STOR f', 'PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say('REST 5', 'APPE f');
  expect(offsets).toEqual([{ offsetBytes: 5 }, 'start', 'start', { offsetBytes: 5 }]);
});

test('6.5 RNTO must follow RNFR directly: nothing may stand between, known or not', () => {
  for (const between of ['NOOP', 'TYPE I', 'PASV', 'XYZZY']) {
    const talk = Talk.loggedIn();
    talk.say('RNFR f', between, 'RNTO g');
    expect([talk.codes.at(0), talk.codes.at(-1)], between).toEqual([350, 503]);
  }
  const talk = Talk.loggedIn();
  talk.say('RNFR f', 'RNTO g');
  expect(talk.codes).toEqual([350, 250]);
});

test('6.5 ALLO tells the size of the next file only', () => {
  const announced: unknown[] = [];
  const talk = Talk.loggedIn({
    ...easyScript,
    open: ({ request }) => {
      announced.push('how' in request ? request.how.announcedBytes : 'none');
      return { ok: false, code: 'busy' };
    },
  });
  talk.say('ALLO 25');
  startStore(talk);
  startStore(talk);
  expect(announced).toEqual([25, null]);
});

test('6.7 a client that says QUIT and closes lets its upload end', () => {
  const talk = Talk.loggedIn();
  startStore(talk);
  talk.say('QUIT');
  talk.feed({ kind: 'control-ended' });
  expect(talk.count('interrupt')).toBe(0);
  talk.answer({ end: 'closed', bytes: 5 });
  expect(talk.codes).toEqual([227, 150, 226, 221]);
  expect(talk.session.isOver).toBe(true);
});

test('6.7 a control connection that closes without QUIT breaks the upload off, also before it began', () => {
  const during = Talk.loggedIn();
  startStore(during);
  during.feed({ kind: 'control-ended' });
  expect(during.wishes).toContainEqual({ kind: 'interrupt', why: 'control-lost' });

  const before = Talk.loggedIn({ ...easyScript, open: undefined });
  startStore(before);
  before.feed({ kind: 'control-ended' });
  expect(before.count('interrupt')).toBe(0);
  before.answer({ ok: true, value: { offsetBytes: 0 } });
  expect(before.wishes).toContainEqual({ kind: 'interrupt', why: 'control-lost' });
});

test('6.7 a broken control connection lets the arrival be finished and says nothing more', () => {
  const talk = Talk.loggedIn({ ...easyScript, finish: undefined });
  startStore(talk);
  talk.feed({ kind: 'control-lost' });
  const saidBefore = talk.said;
  talk.answer({ end: 'control-lost', bytes: 3 });
  expect(talk.question).toBe('finish');
  talk.answer({ kind: 'broken-off', sizeBytes: 3, expectedBytes: null });
  expect(talk.said).toBe(saidBefore);
  expect([talk.session.isOver, talk.count('hang-up')]).toEqual([true, 1]);
});

test('7.1 stopping ends an upload and tells the client twice: its file, and that we go', () => {
  const talk = Talk.loggedIn({
    ...easyScript,
    finish: () => ({ kind: 'broken-off', sizeBytes: 3, expectedBytes: null }),
  });
  startStore(talk);
  talk.feed({ kind: 'stopping' });
  expect(talk.wishes).toContainEqual({ kind: 'interrupt', why: 'stopping' });
  talk.answer({ end: 'stopping', bytes: 3 });
  expect(talk.codes).toEqual([227, 150, 426, 421]);
  expect(talk.session.isOver).toBe(true);
});

test('every verb answers every kind of argument with one well-formed reply', () => {
  const argument = fc.oneof(
    fc.constantFrom(
      '',
      'f',
      'd',
      '/',
      '..',
      'x/y',
      '1',
      'I',
      'ALL',
      '-la d',
      'MLST type;',
      '20260101000000 f',
      '99999999999999999999',
    ),
    fc.string({ unit: 'binary', maxLength: 30 }),
  );
  const line = fc.tuple(fc.constantFrom(...commands.keys()), argument).map((parts) => parts.join(' '));
  fc.assert(
    fc.property(fc.array(line, { maxLength: 12 }), (sent) => {
      const talk = Talk.loggedIn({
        ...easyScript,
        'await-data': () => true,
        receive: () => ({ end: 'closed', bytes: 1 }),
        send: () => true,
      });
      talk.say(...sent.map((each) => each.replaceAll('\r', '').replaceAll('\n', '')));
      expectWellFormed(talk.said);
      const last = talk.codes.filter((code) => code !== 150).length;
      expect(talk.session.isOver || last === sent.length).toBe(true);
    }),
    { numRuns: 400 },
  );
});

test('whatever happens in whatever order, nothing throws, replies are well-formed, and hang-up is said once and last', () => {
  const event = fc.oneof(
    {
      weight: 6,
      arbitrary: fc
        .constantFrom(
          'USER a',
          'PASS b',
          'PASV',
          'EPSV',
          'STOR x',
          'LIST',
          'NOOP',
          'REST 3',
          'ABOR',
          'STAT',
          'QUIT',
          'XYZZY',
        )
        .map((line) => (talk: Talk) => talk.say(line)),
    },
    {
      weight: 1,
      arbitrary: fc.uint8Array({ maxLength: 50 }).map((bytes) => (talk: Talk) => talk.sendBytes(bytes)),
    },
    {
      weight: 3,
      arbitrary: fc
        .constantFrom('data-connected', 'control-ended', 'control-lost', 'stopping')
        .map((kind) => (talk: Talk) => talk.feed({ kind })),
    },
    { weight: 3, arbitrary: fc.constant((talk: Talk) => answerOpen(talk)) },
    { weight: 1, arbitrary: fc.nat(2_000_000).map((ms) => (talk: Talk) => talk.later(ms)) },
  );
  fc.assert(
    fc.property(fc.array(event, { maxLength: 40 }), (events) => {
      const talk = new Talk({ ...easyScript, finish: undefined, open: undefined });
      for (const happen of events) happen(talk);
      talk.feed({ kind: 'control-lost' });
      for (let open = 0; open < 5; open += 1) answerOpen(talk);
      expectWellFormed(talk.said);
      expect(talk.session.isOver).toBe(true);
      expect(talk.count('hang-up')).toBe(1);
      expect(talk.wishes.at(-1)?.kind).toBe('hang-up');
    }),
    { numRuns: 1000 },
  );
});

test('every finding of the line has a sentence', () => {
  const talk = new Talk({ ...easyScript, 'log-in': () => ({ camera: null, failures: 1 }) });
  for (let attempt = 0; attempt < 4; attempt += 1) talk.say('USER a', 'PASS b');
  expect(talk.reports.length).toBeGreaterThan(4);
  for (const code of [
    ...talk.reports,
    'line.upload-kept',
    'line.upload-kept-damaged',
    'line.upload-broken-off',
  ]) {
    expect(knownCodes()).toContain(code);
  }
});

function answerOpen(talk: Talk): void {
  const answers: Readonly<Record<string, unknown>> = {
    open: { ok: true, value: { offsetBytes: 0 } },
    'await-data': false,
    receive: { end: 'reset', bytes: 1 },
    finish: { kind: 'broken-off', sizeBytes: 1, expectedBytes: null },
    send: false,
  };
  if (talk.question !== null) talk.answer(answers[talk.question]);
}

/** RFC 959 section 4.2 with RFC 854: code, blank or dash; lines end in CR LF; multi-line replies close. */
function expectWellFormed(said: string): void {
  const plain = said.replace(/\u00ff(?:[\u00fb-\u00fe].|\u00ff)/gs, '');
  expect(plain === '' || plain.endsWith('\r\n')).toBe(true);
  let open: string | null = null;
  for (const line of plain.split('\r\n').slice(0, -1)) {
    const odd =
      [...line].some((character) => character < ' ' || character === '\u007f') ||
      !(open === null ? /^[1-5]\d\d[ -]/ : /^( |\d{3} )/).test(line);
    if (odd) expect.fail(`not a reply line: ${JSON.stringify(line)}`);
    if (open === null && line[3] === '-') open = line.slice(0, 3);
    else if (open !== null && line.startsWith(`${open} `)) open = null;
  }
  expect(open).toBeNull();
}

test('8.4 every change of the folder and every upload is counted directly before it is asked for', () => {
  const changes = {
    'make-folder': ['MKD x'],
    'remove-folder': ['RMD d'],
    hide: ['DELE f'],
    rename: ['RNFR f', 'RNTO y'],
    'set-modified': ['MFMT 20261001080405 f'],
    open: ['PASV', 'STOR x'],
  };
  for (const [change, lines] of Object.entries(changes)) {
    const talk = Talk.loggedIn({ ...easyScript, 'await-data': () => true });
    talk.say(...lines);
    const asked = talk.wishes.flatMap((wish) => (wish.kind === 'ask' ? [wish.question.name as string] : []));
    expect(asked[asked.indexOf(change) - 1], change).toBe('spend');
  }
  const other = Talk.loggedIn();
  other.say('MDTM 20261001080405 x', 'SITE UTIME 20261001080405 f');
  expect(other.wishes.filter((wish) => wish.kind === 'ask' && wish.question.name === 'spend')).toHaveLength(
    2,
  );
});

test('2.3 STOR and APPE without a name are 501, with and without a way to a data connection (RFC 959 section 4.2)', () => {
  const talk = Talk.loggedIn(easyScript);
  talk.say('STOR', 'APPE', 'PASV', 'STOR');
  expect(talk.codes).toEqual([501, 501, 227, 501]);
});
