/**
 * A relay between a camera and a station: every port of the list is passed on to the same port of the station, each way
 * later by a fixed time. Told by lines on standard input: `hold-after BYTES` stops everything once the camera has sent so many
 * more, so that it is always in the middle of a file however slow the machine is; `go` goes on, `cut` ends every connection
 * with a reset. Usage: node weak-line-relay.mjs STATION DELAY_MS PORT…
 */
import { connect, createServer } from 'node:net';
import { createInterface } from 'node:readline';

const [station, delay, ...ports] = process.argv.slice(2);
const delayMs = Number(delay);
/** Bytes on their way through the relay, each way of a connection; beyond, the sender is held back. */
const underWayMax = 1 << 20;
const pairs = new Set();
let held = false;
/** What the camera may still send before everything stops. */
let bytesToHold = Number.POSITIVE_INFINITY;

function countToHold(bytes) {
  bytesToHold -= bytes;
  if (bytesToHold > 0) return;
  held = true;
  bytesToHold = Number.POSITIVE_INFINITY;
}

function pass(from, to) {
  let last = Promise.resolve();
  let underWay = 0;
  from.on('data', (bytes) => {
    underWay += bytes.length;
    if (underWay > underWayMax) from.pause();
    later(() => {
      to.write(bytes);
      underWay -= bytes.length;
      if (underWay <= underWayMax && !held) from.resume();
    });
  });
  from.on('end', () => later(() => to.end()));
  from.on('error', () => to.destroy());
  function later(work) {
    const due = Date.now() + delayMs;
    last = last.then(async () => {
      const wait = due - Date.now();
      if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait));
      while (held) await new Promise((resolve) => setTimeout(resolve, 20));
      if (!to.destroyed) work();
    });
  }
}

for (const port of ports.map(Number)) {
  const server = createServer({ allowHalfOpen: true }, (camera) => {
    const onward = connect({ host: station, port, allowHalfOpen: true });
    const pair = [camera, onward];
    pairs.add(pair);
    camera.on('close', () => pairs.delete(pair));
    camera.on('data', (bytes) => countToHold(bytes.length));
    pass(camera, onward);
    pass(onward, camera);
  });
  await new Promise((resolve) => server.listen(port, resolve));
}
createInterface({ input: process.stdin }).on('line', (word) => {
  if (word.startsWith('hold-after ')) bytesToHold = Number(word.slice('hold-after '.length));
  if (word === 'go') held = false;
  if (word === 'cut') for (const [one, other] of pairs) for (const end of [one, other]) end.resetAndDestroy();
});
process.stdout.write('ready\n');
