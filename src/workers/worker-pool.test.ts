import { getEventListeners } from 'node:events';
import { Worker } from 'node:worker_threads';
import { afterEach, expect, test } from 'vitest';
import { InlinePool } from './inline-pool.ts';
import { WorkerPool, type WorkerPoolOptions } from './worker-pool.ts';

/** What the scripted worker below is told to do; it answers with its thread's number. */
type Script =
  | { readonly kind: 'answer' }
  | { readonly kind: 'retire' }
  | { readonly kind: 'refuse'; readonly code: string }
  | { readonly kind: 'throw' }
  | { readonly kind: 'exit' }
  | { readonly kind: 'hang' };

const scriptedWorker = `
  const { parentPort, threadId } = require('node:worker_threads');
  parentPort.on('message', ({ id, task }) => {
    switch (task.kind) {
      case 'throw': throw new Error('script says throw');
      case 'exit': process.exit(7);
      case 'hang': for (;;) Math.sqrt(2);
      case 'refuse': return parentPort.postMessage({ id, retire: false, error: {
        code: task.code, message: 'refused', stack: 'Error: refused\\n    at script', retryable: true, cure: 'wait',
        details: { left: 3 } } });
      default: parentPort.postMessage({ id, retire: task.kind === 'retire', answer: threadId });
    }
  });
`;

let spawned: Worker[] = [];
let pool: WorkerPool<Script, number>;

function startPool(options: Partial<WorkerPoolOptions<Script>> = {}): WorkerPool<Script, number> {
  spawned = [];
  pool = new WorkerPool<Script, number>({
    size: 1,
    idleMs: 60_000,
    jobMsMax: 60_000,
    spawn: () => {
      const worker = new Worker(scriptedWorker, { eval: true });
      spawned.push(worker);
      return worker;
    },
    ...options,
  });
  return pool;
}

afterEach(() => pool.close());

test('one worker does one job after another and is kept warm', async () => {
  const { run } = bound(startPool());
  const answers = await Promise.all([
    run({ kind: 'answer' }),
    run({ kind: 'answer' }),
    run({ kind: 'answer' }),
  ]);
  expect(new Set(answers).size).toBe(1);
  expect(spawned).toHaveLength(1);
});

test('never more workers than the size, however many jobs wait', async () => {
  const { run } = bound(startPool({ size: 2 }));
  await Promise.all(Array.from({ length: 9 }, () => run({ kind: 'answer' })));
  expect(spawned).toHaveLength(2);
});

test.each([
  ['throws', { kind: 'throw' }],
  ['exits', { kind: 'exit' }],
] as const)('a worker that %s fails its job by code and is replaced', async (_, script) => {
  const { run } = bound(startPool());
  await expect(run(script)).rejects.toMatchObject({ code: 'worker-crashed' });
  await expect(run({ kind: 'answer' })).resolves.toBeGreaterThan(0);
  expect(spawned).toHaveLength(2);
});

test('a crash fails its own job only: those that wait are done by the next worker', async () => {
  const { run } = bound(startPool());
  const [first, second] = await Promise.allSettled([run({ kind: 'throw' }), run({ kind: 'answer' })]);
  expect(first.status).toBe('rejected');
  expect(second.status).toBe('fulfilled');
});

test('a job’s own error keeps code, message, stack, cure and details across the border', async () => {
  const { run } = bound(startPool());
  await expect(run({ kind: 'refuse', code: 'raw-cut' })).rejects.toMatchObject({
    code: 'raw-cut',
    message: 'refused',
    stack: expect.stringContaining('at script'),
    retryable: true,
    cure: 'wait',
    details: { left: 3 },
  });
  expect(spawned).toHaveLength(1);
});

test('a job that takes too long is ended together with its worker', async () => {
  // Long enough for the second worker to start and answer on a busy machine.
  const { run } = bound(startPool({ jobMsMax: 3000 }));
  await expect(run({ kind: 'hang' })).rejects.toMatchObject({ code: 'worker-too-slow' });
  await expect(run({ kind: 'answer' })).resolves.toBeGreaterThan(0);
});

test('abort ends a running job at once, and a waiting one without touching the running', async () => {
  const { run } = bound(startPool());
  const hanging = new AbortController();
  const waiting = new AbortController();
  const running = run({ kind: 'hang' }, hanging.signal);
  const queued = run({ kind: 'answer' }, waiting.signal);
  const last = run({ kind: 'answer' });
  waiting.abort(new Error('not wanted'));
  await expect(queued).rejects.toThrow('not wanted');
  hanging.abort(new Error('enough'));
  await expect(running).rejects.toThrow('enough');
  await expect(last).resolves.toBeGreaterThan(0);
});

test('a signal that is aborted already starts nothing; one aborted afterwards changes nothing', async () => {
  const { run } = bound(startPool());
  await expect(run({ kind: 'answer' }, AbortSignal.abort(new Error('too late')))).rejects.toThrow('too late');
  expect(spawned).toHaveLength(0);
  const late = new AbortController();
  const first = await run({ kind: 'answer' }, late.signal);
  expect(getEventListeners(late.signal, 'abort')).toHaveLength(0);
  late.abort();
  await expect(run({ kind: 'answer' })).resolves.toBe(first);
});

test('a worker that asks to retire is ended after its answer', async () => {
  const { run } = bound(startPool());
  const first = await run({ kind: 'retire' });
  await expect(run({ kind: 'answer' })).resolves.not.toBe(first);
  expect(spawned).toHaveLength(2);
});

test('of the workers at rest, the one that was last busy with the same takes the job', async () => {
  const { run } = bound(startPool({ size: 2, subjectOf: (script) => script.kind }));
  // The first seat is busy with something else when the answer is asked for.
  const other = run({ kind: 'refuse', code: 'x' }).catch(() => 0);
  const second = await run({ kind: 'answer' });
  await other;
  for (let round = 0; round < 3; round++) await expect(run({ kind: 'answer' })).resolves.toBe(second);
  expect(spawned).toHaveLength(2);
});

test('an idle worker is ended, so that its memory goes, and the next job gets a new one', async () => {
  const { run } = bound(startPool({ idleMs: 20 }));
  const first = await run({ kind: 'answer' });
  const [worker] = spawned;
  if (worker === undefined) throw new Error('no worker was started');
  // Resolves when the thread is gone; the test's own time limit is the deadline.
  await new Promise((resolve) => worker.once('exit', resolve));
  await expect(run({ kind: 'answer' })).resolves.not.toBe(first);
});

test('closing rejects what runs and what waits, and later jobs', async () => {
  const { run, close } = bound(startPool());
  const outcomes = Promise.allSettled([run({ kind: 'hang' }), run({ kind: 'answer' })]);
  await close();
  for (const outcome of await outcomes) {
    expect(outcome).toMatchObject({ status: 'rejected', reason: { code: 'worker-pool-closed' } });
  }
  await expect(run({ kind: 'answer' })).rejects.toMatchObject({ code: 'worker-pool-closed' });
});

test('inline, jobs run one at a time in order, and a failure does not stop the next', async () => {
  const log: string[] = [];
  const inline = new InlinePool(async (name: string) => {
    log.push(`${name} starts`);
    await Promise.resolve();
    log.push(`${name} ends`);
    if (name === 'b') throw new Error('b fails');
    return name;
  });
  const outcomes = await Promise.allSettled(['a', 'b', 'c'].map((name) => inline.run(name)));
  expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
  expect(log).toEqual(['a starts', 'a ends', 'b starts', 'b ends', 'c starts', 'c ends']);
});

test('inline, abort and close settle at once', async () => {
  const inline = new InlinePool((_: string) => new Promise<string>(() => undefined));
  const stop = new AbortController();
  const running = inline.run('never', stop.signal);
  const waiting = inline.run('waits', stop.signal);
  stop.abort(new Error('enough'));
  await expect(running).rejects.toThrow('enough');
  await expect(waiting).rejects.toThrow('enough');
});

/** The pool's calls without `this`. */
function bound(target: WorkerPool<Script, number>): {
  run: (script: Script, signal?: AbortSignal) => Promise<number>;
  close: () => Promise<void>;
} {
  return { run: (script, signal) => target.run(script, signal), close: () => target.close() };
}
