import { cp, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BenchStation, root, startBenchStation } from './station.ts';

/**
 * A station that hashes nothing: the built command, copied, with one file replaced - the entry of its hash worker, by one that
 * answers each message unread. So the program itself has no switch that turns hashing off, and all but the hash is measured
 * as it is: the thread, the messages, and the waiting for answers.
 */
export async function startUnhashedStation(): Promise<BenchStation> {
  const copy = await mkdtemp(join(tmpdir(), 'setside-bench-unhashed-'));
  for (const folder of ['bin', 'dist', 'scripts'])
    await cp(join(root, folder), join(copy, folder), { recursive: true });
  for (const name of ['node_modules', 'src', 'package.json', 'licences'])
    await symlink(join(root, name), join(copy, name));
  await writeFile(join(copy, 'dist/run/hash-worker.js'), idleWorker);
  const station = await startBenchStation(undefined, copy);
  return {
    ...station,
    stop: async () => {
      await station.stop();
      await rm(copy, { recursive: true, force: true });
    },
  };
}

/** A digest of its own for each file that asks, since equal ones would mean equal bytes. */
const idleWorker = `import { parentPort } from 'node:worker_threads';
let digests = 0;
parentPort.on('message', ({ kind, request }) => {
  if (kind === 'end') return;
  const sha256 = kind === 'digest' ? (++digests).toString(16).padStart(64, '0') : null;
  parentPort.postMessage({ request, ok: true, sha256 });
});
`;
