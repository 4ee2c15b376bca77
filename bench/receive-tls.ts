import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createServer } from 'node:tls';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { FtpSender, underTls } from './ftp-sender.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { startBenchStation } from './station.ts';
import { steadyMBPerS, warmUpFiles } from './steady.ts';

const fileBytes = 25e6;
const filesPerRound = 20;

/** Throughput of FTPS on loopback: decrypted, hashed, durable, acknowledged. */
export const receiveTls: Bench = {
  name: 'receive-tls',
  about: 'receiving by FTPS',
  async measure(rounds, say) {
    const runs: Run[] = [];
    for (let round = 0; round < rounds; round++) {
      const { MBPerS: ours, root, server } = await stationRound();
      const reference = await sinkMBPerS(root, server);
      runs.push({ ours, reference });
      say(`  ours ${ours.toFixed(0)} MB/s, sink ${reference.toFixed(0)} MB/s`);
    }
    return resultOf(
      {
        name: 'receive-tls',
        referenceName:
          'a plain TLS sink in a thread of its own, with the same certificate, that writes and syncs the same bytes and does nothing else',
        goal: 0.8,
        better: 'higher',
        unit: 'MB/s',
        note: `${filesPerRound} files of 25 MB a round, after ${warmUpFiles} that are not counted, TLS 1.3; the sender encrypts on the same processor on both sides.`,
      },
      runs,
    );
  },
};

/** One round with the station, and the certificates of its home, for the sink to use the same. */
async function stationRound(): Promise<{ MBPerS: number; root: string; server: string }> {
  const station = await startBenchStation();
  try {
    const root = await (await fetch(`${station.web}/api/v1/station/certificate.pem`)).text();
    const server = await readFile(join(station.home, 'keys/server.pem'), 'utf8');
    const sender = await FtpSender.open(station, root);
    const MBPerS = await steadyMBPerS(filesPerRound, fileBytes, (bytes, file) =>
      sender.store(`BNCH${String(file + 1).padStart(4, '0')}.BIN`, bytes, Number.POSITIVE_INFINITY),
    );
    sender.close();
    return { MBPerS, root, server };
  } finally {
    await station.stop();
  }
}

async function sinkMBPerS(root: string, server: string): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-bench-tls-sink-'));
  const worker = new Worker(new URL(import.meta.url), { workerData: { tlsFolder: folder, server } });
  try {
    const port = await new Promise<number>((resolve) => worker.once('message', resolve));
    return await steadyMBPerS(filesPerRound, fileBytes, (bytes) => sendOne(port, root, bytes));
  } finally {
    await worker.terminate();
    await rm(folder, { recursive: true, force: true });
  }
}

/** One connection a file; the sink closes it when the bytes are synced. */
async function sendOne(port: number, root: string, bytes: Uint8Array): Promise<void> {
  const tls = await underTls(connect(port, '127.0.0.1'), { ca: root, host: '127.0.0.1' });
  const closed = new Promise<void>((resolve, reject) => {
    tls.on('error', reject);
    tls.on('close', () => resolve());
  });
  tls.end(bytes);
  await closed;
}

/** The reference: decrypts, writes, syncs, closes. */
function runSink(folder: string, pem: string): void {
  let count = 0;
  const server = createServer({ key: pem, cert: pem, allowHalfOpen: true }, (socket) => {
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

const wanted: unknown = workerData;
if (
  !isMainThread &&
  typeof wanted === 'object' &&
  wanted !== null &&
  'tlsFolder' in wanted &&
  'server' in wanted
) {
  runSink(String(wanted.tlsFolder), String(wanted.server));
}
