import { readFile } from 'node:fs/promises';
import { openBrowser, paintedAtMs, watchPaints } from './browser.ts';
import { FtpSender, type SentPoint } from './ftp-sender.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { previewEndBytes } from './preview-end.ts';
import { benchRaws } from './raws.ts';
import { startBenchStation } from './station.ts';
import { newestFrameId } from './station-calls.ts';

const paceBytesPerSecond = 4e6;
/** performance.md: the preview's end and 150 ms of line time. */
const graceS = 0.15;

/** Share of the file that has arrived when the first view of 1000 px or more is on the page. */
export const firstView: Bench = {
  name: 'first-view',
  about: 'how much of a file has come when its first view is painted',
  async measure(rounds, say) {
    const raws = await benchRaws(rounds, say);
    const station = await startBenchStation();
    const browser = await openBrowser();
    const runs: Run[] = [];
    try {
      const page = await browser.newPage({ viewport: { width: 1920, height: 1080 } });
      await page.goto(station.web);
      await watchPaints(page);
      for (let round = 0; round < rounds; round++) {
        const file = await readFile(raws[round] ?? '');
        const sender = await FtpSender.open(station);
        const sending = sender.store(
          `BNCH${String(round + 1).padStart(4, '0')}.DNG`,
          file,
          paceBytesPerSecond,
        );
        const frame = await newestFrameId(station, round + 1);
        const paintedMs = await paintedAtMs(page, frame, 'first-view');
        const points = await sending;
        sender.close();
        const end = previewEndBytes(file);
        const ours = bytesAt(points, paintedMs) / file.length;
        const reference = (end + graceS * paceBytesPerSecond) / file.length;
        runs.push({ ours, reference });
        say(
          `  painted at ${percent(ours)} of the file, preview's end and 150 ms are at ${percent(reference)}`,
        );
        await paintedAtMs(page, frame, 'rendered');
      }
    } finally {
      await browser.close();
      await station.stop();
    }
    return resultOf(
      {
        name: 'first-view',
        referenceName: 'share at which the embedded preview has arrived, and 150 ms of line time',
        goal: 1,
        better: 'lower',
        unit: 'share of the file',
        note: '24-megapixel raw of the stand-in at 4 MB/s; painted means on the canvas of headless Chromium, software GL.',
      },
      runs,
    );
  },
};

function bytesAt(points: readonly SentPoint[], atMs: number): number {
  return points.findLast((point) => point.atMs <= atMs)?.bytes ?? 0;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}
