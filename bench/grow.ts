import { setTimeout as pause } from 'node:timers/promises';
import { FtpSender } from './ftp-sender.ts';
import { drawnPicture } from './many-frames.ts';
import { type Bench, type BenchResult, type Run, resultOf } from './measure.ts';
import { processorS, residentMB } from './processor.ts';
import type { BenchStation } from './station.ts';
import { openTwoHomes } from './two-homes.ts';

const framesFew = 100;
const framesMany = 20_000;
const framesPerRound = 20;

/** Processor time of the station for one more frame, from its first byte to its verdicts, in a small job and a large one. */
export const grow: Bench = {
  name: 'grow',
  about: 'one more frame with 20,000 in the job',
  async measure(rounds, say): Promise<BenchResult> {
    const homes = await openTwoHomes(framesFew, framesMany, say);
    const runs: Run[] = [];
    try {
      // The engine compiles what receiving needs, on both.
      for (const station of [homes.few, homes.many]) await costMs(station, 0);
      for (let round = 1; round <= rounds; round += 1) {
        const reference = await costMs(homes.few, round);
        const ours = await costMs(homes.many, round);
        runs.push({ ours, reference });
        say(`  ${ours.toFixed(0)} ms a frame with ${framesMany}, ${reference.toFixed(0)} with ${framesFew}`);
      }
      const memory = await residentMB(homes.many.pid);
      return resultOf(
        {
          name: 'grow',
          referenceName: `${framesFew} frames`,
          goal: 1.1,
          better: 'lower',
          unit: 'ms of processor time a frame',
          note: `JPEGs of 1200 x 800, no page open. Resident memory with ${framesMany} frames ${memory.toFixed(0)} MB.`,
        },
        runs,
      );
    } finally {
      await homes.close();
    }
  },
};

/** Sends a round of pictures that nobody sent before, and waits until each is judged. */
async function costMs(station: BenchStation, round: number): Promise<number> {
  const pictures = await Promise.all(
    Array.from({ length: framesPerRound }, (_, index) => drawnPicture(1000 + round * framesPerRound + index)),
  );
  const before = await processorS(station.pid);
  const sender = await FtpSender.open(station);
  for (const [index, picture] of pictures.entries()) {
    const name = `GROW${String(round * framesPerRound + index + 1).padStart(4, '0')}.JPG`;
    await sender.store(name, picture, Number.POSITIVE_INFINITY);
  }
  sender.close();
  await untilJudged(station, round);
  return ((await processorS(station.pid)) - before) * (1000 / framesPerRound);
}

async function untilJudged(station: BenchStation, round: number): Promise<void> {
  for (;;) {
    const answer = await fetch(`${station.web}/api/v1/frames?order=newest&limit=${framesPerRound}`);
    const { frames }: { frames: { name: string; times: { judged: string | null } }[] } = JSON.parse(
      await answer.text(),
    );
    const own = frames.filter(({ name }) => {
      const counter = Number(/^GROW(\d{4})/.exec(name)?.[1] ?? 0) - 1;
      return Math.floor(counter / framesPerRound) === round;
    });
    if (own.length === framesPerRound && own.every(({ times }) => times.judged !== null)) return;
    await pause(500);
  }
}
