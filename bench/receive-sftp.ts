import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { chmod, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { type Bench, type Run, resultOf } from './measure.ts';
import { startBenchStation } from './station.ts';
import { holdMemory, warmUpFiles } from './steady.ts';

const fileBytes = 25e6;
const filesPerRound = 12;

/** Throughput of SFTP on loopback with OpenSSH's own client: hashed, durable, acknowledged. */
export const receiveSftp: Bench = {
  name: 'receive-sftp',
  about: 'receiving by SFTP',
  async measure(rounds, say) {
    const camera = await openCamera();
    const runs: Run[] = [];
    try {
      for (let round = 0; round < rounds; round++) {
        const ours = await stationMBPerS(camera);
        const reference = await sinkMBPerS(camera);
        runs.push({ ours, reference });
        say(`  ours ${ours.toFixed(0)} MB/s, sink ${reference.toFixed(0)} MB/s`);
      }
    } finally {
      await camera.remove();
    }
    return resultOf(
      {
        name: 'receive-sftp',
        referenceName:
          "ssh2's own SFTP server in a thread of its own that writes and syncs the same bytes and does nothing else",
        goal: 0.8,
        better: 'higher',
        unit: 'MB/s',
        note: `${filesPerRound} files of 25 MB a round, after ${warmUpFiles} that are not counted, from OpenSSH's sftp, which shares the processor with what is measured, on both sides. Stretch goal.`,
      },
      runs,
    );
  },
};

/** OpenSSH's client and the files it sends. */
interface SshCamera {
  readonly place: string;
  send(port: number, user: string, password: string): Promise<number>;
  remove(): Promise<void>;
}

async function openCamera(): Promise<SshCamera> {
  const place = await mkdtemp(join(tmpdir(), 'setside-bench-sftp-'));
  const askpass = join(place, 'askpass');
  await writeFile(askpass, '#!/bin/sh\necho "$SETSIDE_BENCH_PASSWORD"\n');
  await chmod(askpass, 0o700);
  const bytes = randomBytes(fileBytes);
  const lines: string[] = [];
  for (let file = 1; file <= warmUpFiles + filesPerRound; file++) {
    // Another first byte makes it another content: the same bytes again would be known and not kept twice.
    bytes.writeUInt32LE(file, 0);
    const path = join(place, `BNCH${String(file).padStart(4, '0')}.BIN`);
    await writeFile(path, bytes);
    lines.push(`put ${path}\n`);
  }
  await writeFile(join(place, 'warm-up'), lines.splice(0, warmUpFiles));
  await writeFile(join(place, 'batch'), lines);
  return {
    place,
    send: async (port, user, password) => {
      await sendAll(place, 'warm-up', port, user, password);
      holdMemory(filesPerRound * fileBytes);
      return sendAll(place, 'batch', port, user, password);
    },
    remove: () => rm(place, { recursive: true, force: true }),
  };
}

/** Seconds from the start of the client to its end; logging in costs both sides the same. */
async function sendAll(
  place: string,
  batch: string,
  port: number,
  user: string,
  password: string,
): Promise<number> {
  const options = [
    'BatchMode=no',
    'StrictHostKeyChecking=no',
    'UserKnownHostsFile=/dev/null',
    'IdentityAgent=none',
  ];
  const args = ['-q', '-F', '/dev/null', ...options.flatMap((option) => ['-o', option])];
  const start = performance.now();
  const child = spawn('sftp', [...args, '-P', String(port), '-b', join(place, batch), `${user}@127.0.0.1`], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: {
      ...process.env,
      SSH_ASKPASS: join(place, 'askpass'),
      SSH_ASKPASS_REQUIRE: 'force',
      SETSIDE_BENCH_PASSWORD: password,
    },
  });
  const code = await new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', resolve);
  });
  if (code !== 0) throw new Error(`sftp ended with ${String(code)}`);
  return (performance.now() - start) / 1000;
}

async function stationMBPerS(camera: SshCamera): Promise<number> {
  const station = await startBenchStation();
  try {
    const seconds = await camera.send(station.sftpPort, station.user, station.password);
    return (filesPerRound * fileBytes) / 1e6 / seconds;
  } finally {
    await station.stop();
  }
}

async function sinkMBPerS(camera: SshCamera): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-bench-sink-'));
  const worker = new Worker(new URL('./sftp-sink.js', import.meta.url), { workerData: { folder } });
  try {
    const port = await new Promise<number>((resolve) => worker.once('message', resolve));
    const seconds = await camera.send(port, 'bench', 'bench');
    return (filesPerRound * fileBytes) / 1e6 / seconds;
  } finally {
    await worker.terminate();
    await rm(folder, { recursive: true, force: true });
  }
}
