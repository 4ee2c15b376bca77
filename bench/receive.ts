import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { FtpSender } from './ftp-sender.ts';
import { type Bench, type BenchResult, type Run, resultOf } from './measure.ts';
import { type BenchStation, startBenchStation } from './station.ts';
import { steadyMBPerS, warmUpFiles } from './steady.ts';
import { startUnhashedStation } from './unhashed-station.ts';

const fileBytes = 25e6;
const filesPerRound = 20;

/** Throughput of FTP on loopback: hashed, durable, acknowledged. */
export const receive: Bench = {
  name: 'receive',
  about: 'receiving by FTP, hashed, durable, acknowledged',
  measure: (rounds, say) =>
    measureReceiving({ name: 'receive', goal: 0.8, note: '' }, () => startBenchStation(), rounds, say),
};

/** The same with the hash worker replaced by one that reads nothing: what all but the hash costs. */
export const receiveUnhashed: Bench = {
  name: 'receive-unhashed',
  about: 'receiving by FTP, durable, acknowledged, by a copy that hashes nothing',
  measure: (rounds, say) =>
    measureReceiving(
      {
        name: 'receive-unhashed',
        goal: 0.9,
        note: ' Ours is a copy of the built command whose hash worker answers without reading the bytes.',
      },
      startUnhashedStation,
      rounds,
      say,
    ),
};

async function measureReceiving(
  about: { readonly name: string; readonly goal: number; readonly note: string },
  start: () => Promise<BenchStation>,
  rounds: number,
  say: (line: string) => void,
): Promise<BenchResult> {
  const runs: Run[] = [];
  for (let round = 0; round < rounds; round++) {
    const ours = await stationMBPerS(start);
    const reference = await sinkMBPerS();
    runs.push({ ours, reference });
    say(`  ours ${ours.toFixed(0)} MB/s, sink ${reference.toFixed(0)} MB/s`);
  }
  return resultOf(
    {
      name: about.name,
      referenceName:
        'a plain TCP sink in a thread of its own that writes and syncs the same bytes and does nothing else',
      goal: about.goal,
      better: 'higher',
      unit: 'MB/s',
      note: `${filesPerRound} files of 25 MB a round, after ${warmUpFiles} that are not counted; the sender shares the processor with what is measured, on both sides.${about.note}`,
    },
    runs,
  );
}

async function stationMBPerS(start: () => Promise<BenchStation>): Promise<number> {
  const station = await start();
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
