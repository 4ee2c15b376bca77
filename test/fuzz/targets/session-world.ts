import type { QuestionName } from '../../../src/receive/ftp/core/questions.ts';

/** Answers that the world may give; `n` picks one. */
export const answers: Readonly<Record<QuestionName, (n: number) => unknown>> = {
  'log-in': (n) => ({ camera: n % 4 === 3 ? null : 'cam', failures: n % 30 }),
  pause: () => null,
  spend: () => null,
  list: (n) => (n % 5 === 4 ? refused(n) : { ok: true, value: [entry(n), entry(n + 1)] }),
  stat: (n) => (n % 5 === 4 ? refused(n) : { ok: true, value: n % 5 === 3 ? null : entry(n) }),
  'make-folder': maybe,
  'remove-folder': maybe,
  rename: maybe,
  hide: maybe,
  'set-modified': maybe,
  listen: (n) => (n % 4 === 3 ? null : { port: 50_000 + n }),
  aim: () => null,
  protect: () => null,
  secure: (n) => (['secured', 'failed', 'busy'] as const)[n % 3],
  'secure-data': (n) => (['secured', 'failed', 'not-resumed'] as const)[n % 3],
  'await-data': (n) => n % 3 !== 2,
  open: (n) => (n % 4 === 3 ? refused(n) : { ok: true, value: { offsetBytes: n } }),
  receive: (n) => ({ end: ends[n % ends.length], bytes: n }),
  finish: (n) => outcomes[n % outcomes.length],
  send: (n) => n % 2 === 0,
};
const folderCodes = ['not-found', 'exists', 'busy', 'too-many', 'disk-full', 'offset-beyond-end'] as const;
export const ends = [
  'closed',
  'unclosed',
  'reset',
  'control-lost',
  'aborted',
  'stalled',
  'stopping',
  'failed',
] as const;
export const outcomes = [
  { kind: 'kept', wholeness: 'whole', sizeBytes: 5 },
  { kind: 'kept-damaged', sizeBytes: 5, expectedBytes: 9 },
  { kind: 'broken-off', sizeBytes: 3, expectedBytes: null },
  { kind: 'failed', code: 'disk-full', sizeBytes: 3 },
] as const;
const refused = (n: number): unknown => ({ ok: false, code: folderCodes[n % folderCodes.length] });
function maybe(n: number): unknown {
  return n % 3 === 2 ? refused(n) : { ok: true, value: null };
}
const entry = (n: number): unknown => ({
  name: n % 7 === 6 ? '\uefff\n"' : `f${n}`,
  kind: n % 2 === 0 ? 'file' : 'folder',
  sizeBytes: n,
  modifiedMs: n * 1e9,
});
