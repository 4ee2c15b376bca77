import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { FtpSender } from './ftp-sender.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { startBenchStation } from './station.ts';
import { steadyMBPerS, warmUpFiles } from './steady.ts';

const fileBytes = 25e6;
const filesPerRound = 20;

/** Throughput of FTP on loopback: hashed, durable, acknowledged. */
export const receive: Bench = {
  name: 'receive',
  about: 'receiving by FTP, hashed, durable, acknowledged',
  async measure(rounds, say) {
    const runs: Run[] = [];
    for (let round = 0; round < rounds; round++) {
      const ours = await stationMBPerS();
      const reference = await sinkMBPerS();
      runs.push({ ours, reference });
      say(`  ours ${ours.toFixed(0)} MB/s, sink ${reference.toFixed(0)} MB/s`);
    }
    return resultOf(
      {
        name: 'receive',
        referenceName:
          'a plain TCP sink in a thread of its own that writes and syncs the same bytes and does nothing else',
        goal: 0.8,
        better: 'higher',
        unit: 'MB/s',
        note: `${filesPerRound} files of 25 MB a round, after ${warmUpFiles} that are not counted; the sender shares the processor with what is measured, on both sides.`,
      },
      runs,
    );
  },
};

async function stationMBPerS(): Promise<number> {
  const station = await startBenchStation();
  try {
    const sender = await FtpSender.open(station);
    const MBPerS = await steadyMBPerS(filesPerRound, fileBytes, (bytes, file) =>
      sender.store(`BNCH${String(file + 1).padStart(4, '0')}.BIN`, bytes, Number.POSITIVE_INFINITY),
    );
    sender.close();
    return MBPerS;
  } finally {
    await station.stop();
  }
}

async function sinkMBPerS(): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-bench-sink-'));
  const worker = new Worker(new URL(import.meta.url), { workerData: { folder } });
  try {
    const port = await new Promise<number>((resolve) => worker.once('message', resolve));
    return await steadyMBPerS(filesPerRound, fileBytes, (bytes) => sendOne(port, bytes));
  } finally {
    await worker.terminate();
    await rm(folder, { recursive: true, force: true });
  }
}

/** One connection a file; the sink closes it when the bytes are synced. */
function sendOne(port: number, bytes: Uint8Array): Promise<void> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1');
    socket.on('error', reject);
    socket.on('close', () => resolve());
    socket.resume();
    socket.end(bytes);
  });
}

/** The reference: reads into one buffer, writes, syncs, closes. */
function runSink(folder: string): void {
  let count = 0;
  const server = createServer({ allowHalfOpen: true }, (socket) => {
    count += 1;
    const file = openSync(join(folder, String(count)), 'w');
    socket.on('data', (chunk: Buffer) => writeSync(file, chunk));
    socket.on('end', () => {
      fdatasyncSync(file);
      closeSync(file);
      socket.end();
    });
  });
  server.listen(0, '127.0.0.1', () => {
    const address = server.address();
    if (address !== null && typeof address === 'object') parentPort?.postMessage(address.port);
  });
}

if (!isMainThread && typeof workerData === 'object' && workerData !== null && 'folder' in workerData) {
  runSink(String(workerData.folder));
}
