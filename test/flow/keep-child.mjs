/**
 * A process of its own that keeps files in a home, for tests that watch it from outside or kill it.
 * `node keep-child.mjs ROLE HOME`: `upload` keeps one file and says `acknowledged`; `endless` keeps one after the other
 * and says each name and hash after its acknowledgement; `hold` opens the home and waits to be killed.
 */
import { createHash, randomUUID } from 'node:crypto';
import { writeSync } from 'node:fs';
import { openKeep } from '../../dist/keep/index.js';

const [role, home, workers = '0'] = process.argv.slice(2);
/** In one call, so that a trace shows the word in one line and a kill never cuts it. */
const say = (text) => writeSync(1, `${text}\n`);

const keep = await openKeep({
  home,
  inspect: async () => ({ kind: 'whole' }),
  newId: randomUUID,
  now: Date.now,
  jobOf: () => 'QM-26',
  diskFloorBytes: 0,
  hashWorkers: Number(workers),
});
const folder = keep.folderOf('cam1');

async function upload(name, bytes) {
  const arrival = await folder.open(`/${name}`, { via: 'ftp', at: 'start', announcedBytes: null });
  for (let start = 0; start < bytes.length; start += 65_536) {
    await arrival.write(bytes.subarray(start, start + 65_536));
  }
  const outcome = await arrival.finish('closed');
  if (outcome.kind !== 'kept') throw new Error(`not kept: ${JSON.stringify(outcome)}`);
}

if (role === 'upload') {
  await upload('X.DNG', new Uint8Array(300_000).fill(7));
  say('acknowledged');
  await keep.close();
} else if (role === 'endless') {
  for (let i = 0; ; i++) {
    const bytes = Buffer.alloc(200_000 + i, i);
    await upload(`${i}.DNG`, bytes);
    say(`${i}.DNG ${createHash('sha256').update(bytes).digest('hex')}`);
  }
} else {
  say('holding');
  setInterval(() => {}, 60_000);
}
