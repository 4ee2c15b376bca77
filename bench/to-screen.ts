import { readFile } from 'node:fs/promises';
import { openBrowser, paintedAtMs, watchPaints } from './browser.ts';
import { FtpSender } from './ftp-sender.ts';
import { librawJpeg } from './libraw-reference.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { benchRaws } from './raws.ts';
import { startBenchStation } from './station.ts';
import { newestFrameId } from './station-calls.ts';

/** Last byte sent to the rendering of the raw painted in a real browser. */
export const toScreen: Bench = {
  name: 'to-screen',
  about: 'from the last byte to the rendering painted',
  async measure(rounds, say) {
    // In the order of their shutters: the page follows the newest, so an older one would not come on screen.
    const raws = await benchRaws(rounds + 1, say);
    const station = await startBenchStation();
    const browser = await openBrowser();
    const runs: Run[] = [];
    try {
      const page = await browser.newPage({ viewport: { width: 1920, height: 1080 } });
      await page.goto(station.web);
      await watchPaints(page);
      // One frame that does not count: the decoder's first start.
      for (let round = -1; round < rounds; round++) {
        const path = raws[round + 1] ?? '';
        const sender = await FtpSender.open(station);
        const name = `BNCH${String(round + 2).padStart(4, '0')}.DNG`;
        const sending = sender.store(name, await readFile(path), 20e6);
        const frame = await newestFrameId(station, round + 2);
        const lastByteMs = (await sending).at(-1)?.atMs ?? 0;
        const ours = (await paintedAtMs(page, frame, 'rendered')) - lastByteMs;
        sender.close();
        if (round < 0) continue;
        const reference = await librawAndJpegMs(path);
        runs.push({ ours, reference });
        say(`  ours ${ours.toFixed(0)} ms, reference ${reference.toFixed(0)} ms`);
      }
    } finally {
      await browser.close();
      await station.stop();
    }
    return resultOf(
      {
        name: 'to-screen',
        referenceName:
          "LibRaw's command line, half size (dcraw_emu -h -w), and one JPEG of that size by libvips",
        goal: 1,
        better: 'lower',
        unit: 'ms',
        note: 'Ours holds hashing, syncing, the journal, metadata, developing with the look, JPEG, HTTP and the browser too.',
      },
      runs,
    );
  },
};

async function librawAndJpegMs(path: string): Promise<number> {
  const start = performance.now();
  await librawJpeg(path, ['-h'], { quality: 90 });
  return performance.now() - start;
}
