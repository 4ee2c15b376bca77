import { expect, test } from 'vitest';
import { sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { axeFindings } from './axe.ts';
import { type Scene, stage } from './stage.ts';

const { open } = stage();

async function paper(camera = 'cam1'): Promise<Scene> {
  const scene = await open((fake) => {
    const [sample] = sampleStation().cameras;
    if (sample === undefined) throw new Error('expected the sample station to have a camera');
    fake.station = sampleStation({ cameras: [{ ...sample, password: 'kmwtrhbfxpzdctgn' }] });
  });
  await scene.page.goto(`${scene.station.url}#/camera-sheet/${camera}`);
  await scene.page.getByRole('heading', { name: camera }).waitFor();
  return scene;
}

test('the sheet of a camera shows what to enter, large, its password in groups that are copied without gaps', async () => {
  const { page } = await paper();
  const form = page.getByRole('region', { name: 'cam1, FTP', exact: true });
  const terms = await form.locator('dt').allTextContents();
  expect(terms).toEqual(['Protocol', 'Server address', 'Port', 'User', 'Password', 'Passive mode', 'Folder']);
  const password = form.locator('.camera-paper-value', { hasText: 'kmwt' });
  expect(await password.locator('span').allTextContents()).toEqual(['kmwt', 'rhbf', 'xpzd', 'ctgn']);
  expect(await password.textContent()).toBe('kmwtrhbfxpzdctgn');
  expect(await page.getByRole('link', { name: 'As PDF' }).getAttribute('href')).toBe(
    '/api/v1/cameras/cam1/sheet.pdf',
  );
  // The sample station has the FTP door alone, so that there is nothing to choose.
  expect(await form.textContent()).not.toContain('One of these sheets is enough');
  expect(await form.locator('footer').textContent()).toContain('Sheet 1 of 1.');
  expect(await axeFindings(page)).toEqual([]);
});

test('on a phone the sheet is no wider than the screen', async () => {
  const { page } = await paper();
  await page.setViewportSize({ width: 390, height: 844 });
  const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  expect(widths[0]).toBeLessThanOrEqual(widths[1] ?? 0);
});

test('a camera that is not there is said to be none', async () => {
  const { page } = await paper('cam7');
  expect(await page.getByRole('alert').textContent()).toContain('There is no camera “cam7”.');
});
