import { readFile } from 'node:fs/promises';
import { type Bench, type BenchResult, type Run, resultOf } from './measure.ts';
import { startBenchStation } from './station.ts';

const watchedS = 40;
/** Linux: clock ticks a second in /proc (sysconf _SC_CLK_TCK, 100 on every common system). */
const ticksPerS = 100;

/** Processor time a minute and memory of a station with nothing to do. Linux only. */
export const idle: Bench = {
  name: 'idle',
  about: 'processor time and memory while nothing comes',
  async measure(rounds, say): Promise<BenchResult> {
    const runs: Run[] = [];
    const memories: number[] = [];
    const station = await startBenchStation();
    try {
      // What the start left to do shall be done: the engine compiles and tidies up for some ten seconds.
      await new Promise((resolve) => setTimeout(resolve, 15_000));
      for (let round = 0; round < Math.min(rounds, 3); round++) {
        const before = await processorS(station.pid);
        await new Promise((resolve) => setTimeout(resolve, watchedS * 1000));
        const ours = ((await processorS(station.pid)) - before) * (60 / watchedS);
        const memoryMB = await residentMB(station.pid);
        memories.push(memoryMB);
        runs.push({ ours, reference: null });
        say(`  ${ours.toFixed(2)} s of processor time a minute, ${memoryMB.toFixed(0)} MB resident`);
      }
    } finally {
      await station.stop();
    }
    return resultOf(
      {
        name: 'idle',
        referenceName: '-',
        goal: 0.1,
        better: 'lower',
        unit: 's of processor time a minute',
        note: `Resident memory ${Math.max(...memories).toFixed(0)} MB (goal: under 150).`,
      },
      runs,
    );
  },
};

/** utime and stime, fields 14 and 15 of /proc/PID/stat (proc(5)); the name in field 2 may hold blanks. */
async function processorS(pid: number): Promise<number> {
  const text = await readFile(`/proc/${pid}/stat`, 'utf8');
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return (Number(fields[11]) + Number(fields[12])) / ticksPerS;
}

async function residentMB(pid: number): Promise<number> {
  const text = await readFile(`/proc/${pid}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+) kB/.exec(text)?.[1]) / 1000;
}
