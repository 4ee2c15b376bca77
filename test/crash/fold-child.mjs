/** Gives back what incoming/ holds twice, again and again, until it is killed: `node fold-child.mjs HOME`. */
import { randomUUID } from 'node:crypto';
import { openKeep } from '../../dist/keep/index.js';

const keep = await openKeep({
  home: process.argv[2],
  inspect: async () => ({ kind: 'unknown' }),
  newId: randomUUID,
  now: Date.now,
  jobOf: () => 'unsorted',
  diskFloorBytes: 0,
  hashWorkers: 1,
});
process.stdout.write('open\n');
for (;;) {
  const { files } = await keep.foldDoubles();
  process.stdout.write(`folded ${files}\n`);
  await new Promise((resolve) => setTimeout(resolve, 5));
}
