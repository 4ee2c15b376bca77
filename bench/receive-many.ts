import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { FtpSender } from './ftp-sender.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { type BenchStation, startBenchStation } from './station.ts';
import { holdMemory, warmUpFiles } from './steady.ts';

const cameras = 8;
const fileBytes = 60e6;

/** Eight cameras at once against one: throughput, and the most memory the station took. */
export const receiveMany: Bench = {
  name: 'receive-many',
  about: 'eight cameras at once, and the most memory',
  async measure(rounds, say) {
    const runs: Run[] = [];
    const peaks: number[] = [];
    for (let round = 0; round < rounds; round++) {
      const station = await startBenchStation();
      try {
        await warmUp(station);
        const reference = await sendBy(station, 1, `ONE${round}`);
        const ours = await sendBy(station, cameras, `MANY${round}`);
        peaks.push(await peakMemoryMB(station.pid));
        runs.push({ ours, reference });
        say(
          `  ours ${ours.toFixed(0)} MB/s, one ${reference.toFixed(0)} MB/s, ${peaks.at(-1)?.toFixed(0)} MB`,
        );
      } finally {
        await station.stop();
      }
    }
    return resultOf(
      {
        name: 'receive-many',
        referenceName: 'one camera that sends the same files one after another to the same station',
        goal: 1,
        better: 'higher',
        unit: 'MB/s',
        note: `${cameras} files of 60 MB, after ${warmUpFiles} that are not counted. Most memory of the station: ${Math.max(...peaks).toFixed(0)} MB (goal: under 350).`,
      },
      runs,
    );
  },
};

/** All files by so many connections at once; MB/s until the last is acknowledged. */
async function sendBy(station: BenchStation, connections: number, prefix: string): Promise<number> {
  const senders = await Promise.all(Array.from({ length: connections }, () => FtpSender.open(station)));
  const bytes = Array.from({ length: connections }, () => randomBytes(fileBytes));
  holdMemory(cameras * fileBytes);
  const start = performance.now();
  await Promise.all(
    senders.map(async (sender, n) => {
      const mine = bytes[n] ?? Buffer.alloc(0);
      for (let file = n; file < cameras; file += connections) {
        mine.writeUInt32LE(file, 0);
        await sender.store(`${prefix}-${file}.BIN`, mine, Number.POSITIVE_INFINITY);
      }
    }),
  );
  const seconds = (performance.now() - start) / 1000;
  for (const sender of senders) sender.close();
  return (cameras * fileBytes) / 1e6 / seconds;
}

async function warmUp(station: BenchStation): Promise<void> {
  const sender = await FtpSender.open(station);
  for (let file = 0; file < warmUpFiles; file++) {
    await sender.store(`WARM-${file}.BIN`, randomBytes(fileBytes), Number.POSITIVE_INFINITY);
  }
  sender.close();
}

/** The most that was ever resident, MB (proc(5), VmHWM). */
async function peakMemoryMB(pid: number): Promise<number> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8');
  return (Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1]) * 1024) / 1e6;
}
