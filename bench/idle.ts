import { type Bench, type BenchResult, type Run, resultOf } from './measure.ts';
import { processorS, residentMB } from './processor.ts';
import { startBenchStation } from './station.ts';

const watchedS = 40;

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
