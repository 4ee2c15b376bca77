import { spawnSync } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasProgram } from './clients.ts';
import { axe, canStage, GuestStage } from './guest-stage.ts';

/** A client takes home on paper what they are shown, and nothing else; poppler reads it. */
describe.skipIf(!canStage || !hasProgram('pdftotext'))('the contact sheet of a guest', () => {
  let stage: GuestStage;
  beforeAll(async () => {
    stage = await GuestStage.open();
  });
  afterAll(() => stage.close());

  const link = () => stage.guest.getByRole('link', { name: 'These pictures on paper' });

  test('the page leads to it, and it holds the pictures that are shared', async () => {
    await stage.mark('POTS0002.JPG', 'alternate');
    await stage.picture(stage.guest, 'POTS0002.JPG').waitFor();
    await link().waitFor();
    expect(await axe(stage.guest)).toEqual([]);
    const [download] = await Promise.all([stage.guest.waitForEvent('download'), link().click()]);
    expect(download.suggestedFilename()).toBe('POTS-contact-sheet.pdf');
    const text = textOf(await download.path());
    expect(text).toContain('Autumn pots');
    expect(text).toMatch(/POTS0001(?!\.)/);
    expect(text).toMatch(/POTS0002(?!\.)/);
    expect(text).not.toContain('POTS0003');
  });

  test('what is said inside, and how a picture was judged, is not on it, whatever is asked for', async () => {
    const { id } = await stage.named('POTS0001.JPG');
    for (const [remark, inside] of [
      ['remark-0001', true],
      ['remark-0002', false],
    ] as const) {
      await stage.call('POST', `/api/v1/frames/${id}/remarks`, {
        ...{ id: remark, point: null, inside, name: 'Lena' },
        text: inside ? 'The client need not know' : 'The rim is chipped',
      });
    }
    const address = new URL('/api/v1/jobs/POTS/contact-sheet.pdf?copy=own&marks=hero', stage.guest.url());
    const answer = await stage.tablet.request.get(address.href);
    expect(answer.status()).toBe(200);
    const file = join(stage.home, 'guest.pdf');
    await writeFile(file, await answer.body());
    const text = textOf(file);
    expect(text).toContain('The rim is chipped');
    expect(text).not.toContain('need not know');
    expect(text).not.toMatch(/unknown|doubt|Shapes/i);
  });

  test('another job and the studio’s papers are not theirs', async () => {
    await stage.call('POST', '/api/v1/jobs', { code: 'OTHER' });
    const status = async (path: string): Promise<number> =>
      (await stage.tablet.request.get(new URL(`/api/v1/jobs/${path}`, stage.guest.url()).href)).status();
    expect(await status('OTHER/contact-sheet.pdf')).toBe(404);
    expect(await status('POTS/report.pdf')).toBe(403);
    expect(await status('POTS/papers')).toBe(403);
  });

  test('nothing broke in the pages', () => expect(stage.complaints).toEqual([]));

  function textOf(file: string): string {
    const { stdout, stderr } = spawnSync('pdftotext', [file, '-'], { encoding: 'utf8' });
    expect(stderr).toBe('');
    return stdout;
  }
});
