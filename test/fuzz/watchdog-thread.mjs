import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { workerData } from 'node:worker_threads';

const { shared, savePath, hangMs } = workerData;
const state = new Int32Array(shared, 0, 2);
let before = -1;

setInterval(() => {
  const count = Atomics.load(state, 0);
  if (count !== before || count === 0) {
    before = count;
    return;
  }
  mkdirSync(dirname(savePath), { recursive: true });
  writeFileSync(savePath, new Uint8Array(shared, 8, state[1]).slice());
  process.stderr.write(`An input has run for ${hangMs / 1000} s; it is saved as ${savePath}\n`);
  process.kill(process.pid, 'SIGKILL');
}, hangMs);
