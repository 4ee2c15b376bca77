import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { FtpSender } from './ftp-sender.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { startBenchStation } from './station.ts';

const bytesPerSecond = 8e6;
const fileBytes = 24e6;
const files = 3;
/** Ticks of `utime` and `stime` in a second: sysconf(_SC_CLK_TCK), 100 on Linux. */
const ticksPerSecond = 100;

/** Processor time of the station's main thread while one camera sends at a good Wi-Fi's pace. */
export const receivePaced: Bench = {
  name: 'receive-paced',
  about: 'what one camera at 8 MB/s takes of a core',
  async measure(rounds, say) {
    const runs: Run[] = [];
    for (let round = 0; round < rounds; round++) {
      const ours = await mainThreadShare();
      runs.push({ ours, reference: null });
      say(`  main thread ${ours.toFixed(1)} %`);
    }
    return resultOf(
      {
        name: 'receive-paced',
        referenceName: '',
        goal: 15,
        better: 'lower',
        unit: '% of one core',
        note: `${files} files of 24 MB at 8 MB/s; user and system time of the main thread alone.`,
      },
      runs,
    );
  },
};

async function mainThreadShare(): Promise<number> {
  const station = await startBenchStation();
  try {
    const sender = await FtpSender.open(station);
    const bytes = randomBytes(fileBytes);
    const before = await mainThreadSeconds(station.pid);
    const start = performance.now();
    for (let file = 0; file < files; file++) {
      bytes.writeUInt32LE(file, 0);
      await sender.store(`PACE${file}.BIN`, bytes, bytesPerSecond);
    }
    const seconds = (performance.now() - start) / 1000;
    const spent = (await mainThreadSeconds(station.pid)) - before;
    sender.close();
    return (spent / seconds) * 100;
  } finally {
    await station.stop();
  }
}

/** proc(5): fields 14 and 15 of the thread's stat, counted behind the name in parentheses. */
async function mainThreadSeconds(pid: number): Promise<number> {
  const stat = await readFile(`/proc/${pid}/task/${pid}/stat`, 'utf8');
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  return (Number(fields[11]) + Number(fields[12])) / ticksPerSecond;
}
