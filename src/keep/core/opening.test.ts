import { expect, test } from 'vitest';
import { type OpenAt, type Opening, planOpening, type Shown } from './opening.ts';

const nothing: Shown = { kind: 'nothing' };
const broken: Shown = { kind: 'broken-off', arrival: 'a', heldBytes: 100, onDiskBytes: 100 };
const doubtful: Shown = { kind: 'broken-off', arrival: 'a', heldBytes: 60, onDiskBytes: 100 };
const kept: Shown = { kind: 'kept', arrival: 'a', sizeBytes: 100 };
const stuck: Shown = { kind: 'stuck', arrival: 'a' };
const at = (offsetBytes: number): OpenAt => ({ offsetBytes });
const fresh = (over: string | null): Opening => ({ kind: 'fresh', over });
const prefix = (prefixBytes: number): Opening => ({ kind: 'prefix', over: 'a', prefixBytes });
const beyond = (heldBytes: number): Opening => ({ kind: 'offset-beyond-end', heldBytes });

test.each<[string, Shown, OpenAt, Opening]>([
  ['nothing, from the start', nothing, 'start', fresh(null)],
  ['nothing, append', nothing, 'end', fresh(null)],
  ['nothing, offset 0', nothing, at(0), fresh(null)],
  ['nothing, offset 1', nothing, at(1), beyond(0)],
  ['broken off, from the start', broken, 'start', fresh('a')],
  ['broken off, offset 0', broken, at(0), fresh('a')],
  ['broken off, at its end', broken, at(100), { kind: 'resume', arrival: 'a', offsetBytes: 100 }],
  ['broken off, append', broken, 'end', { kind: 'resume', arrival: 'a', offsetBytes: 100 }],
  ['broken off, earlier', broken, at(99), prefix(99)],
  ['broken off, beyond', broken, at(101), beyond(100)],
  ['doubtful tail, append: what is certain is copied', doubtful, 'end', prefix(60)],
  ['doubtful tail, into the doubt', doubtful, at(61), beyond(60)],
  ['kept, from the start', kept, 'start', fresh('a')],
  ['kept, append', kept, 'end', prefix(100)],
  ['kept, earlier', kept, at(1), prefix(1)],
  ['kept, beyond', kept, at(101), beyond(100)],
  ['stuck, from the start', stuck, 'start', fresh('a')],
  ['stuck, offset 1', stuck, at(1), beyond(0)],
])('K2.5 %s', (_, shown, openAt, expected) => {
  expect(planOpening(shown, openAt)).toEqual(expected);
});
