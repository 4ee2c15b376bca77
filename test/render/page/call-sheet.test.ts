import { expect, test } from 'vitest';
import { sampleJob } from '../../../src/contract/testing/sample-job.ts';
import { sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { axeFindings } from './axe.ts';
import type { FakeStation } from './fake-station.ts';
import { type Scene, stage } from './stage.ts';

const { open } = stage();

/** Six shots, as a small catalogue has. */
function catalogue(fake: FakeStation): void {
  const names = ['Mug', 'Jug', 'Bowl', 'Plate stack', 'Teapot', 'Group'];
  const job = sampleJob({
    code: 'kiln-07',
    title: 'Stoneware, autumn list',
    client: 'Kiln and Table (invented)',
    from: '2031-05-06',
    to: '2031-05-07',
    place: 'The yard',
    notes: 'Bring the white card.\nDoors open at eight.',
    state: 'open',
    shots: names.map((name, index) => ({
      id: name,
      name,
      description: `How ${name} stands.`,
      camera: index === 1 ? 'cam2' : null,
      requires: index === 2 ? ['arrived', 'sharp'] : ['arrived', 'sharp', 'exposed', 'inPlace', 'colour'],
      agreement: index === 5,
    })),
  });
  fake.jobs = [job];
  fake.station = sampleStation({ job });
}

async function callSheet(): Promise<Scene> {
  const scene = await open(catalogue);
  await scene.page.goto(`${scene.station.url}#/call-sheet/kiln-07`);
  await scene.page.getByRole('heading', { name: 'Stoneware, autumn list' }).waitFor();
  return scene;
}

test('the call sheet says who, when and where, the shots in order with boxes to tick, and what to take care of', async () => {
  const { page } = await callSheet();
  const text = (await page.locator('.call-sheet').textContent()) ?? '';
  for (const said of [
    'Kiln and Table (invented)',
    'Tuesday, 6 May 2031 to Wednesday, 7 May 2031',
    'The yard',
    'Doors open at eight.',
    'on a private network only',
    'follow the makers’ instructions and the local rules',
  ])
    expect(text.replace(/\s+/g, ' ')).toContain(said);
  expect(await page.locator('.call-shots h3').allTextContents()).toEqual([
    'Mug',
    'Jug',
    'Bowl',
    'Plate stack',
    'Teapot',
    'Group',
  ]);
  expect(await page.locator('.tick-box').count()).toBe(7);
  expect(text).toContain('Must be good: Arrived, Sharp');
  expect(text).toContain('Camera: cam2');
  expect(await axeFindings(page)).toEqual([]);
});

test.each([
  // ISO 216: 210 mm by 297 mm; ANSI/ASME Y14.1, size A: 8.5 in by 11 in. Of 1/72 in, as PDF counts (ISO 32000-1, 8.3.2.3).
  ['A4', (210 / 25.4) * 72, (297 / 25.4) * 72],
  ['Letter', 8.5 * 72, 11 * 72],
])('six shots fit on one page of %s, without the buttons', async (format, widthPt, heightPt) => {
  const { page } = await callSheet();
  const pdf = (await page.pdf({ format })).toString('latin1');
  const boxes = [...pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)];
  expect(boxes).toHaveLength(1);
  // Chromium rounds a page to whole pixels of 1/96 in.
  expect(Math.abs(Number(boxes[0]?.[1]) - widthPt)).toBeLessThan(1);
  expect(Math.abs(Number(boxes[0]?.[2]) - heightPt)).toBeLessThan(1.1);
  await page.emulateMedia({ media: 'print' });
  expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
});

test('a job that is not there is said', async () => {
  const { page, station } = await open(catalogue);
  await page.goto(`${station.url}#/call-sheet/nothing`);
  await page.getByText('There is no job nothing here.').waitFor();
});
