import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { startWebDoor, type WebDoor } from '../../src/serve/index.ts';
import { DeskFake } from '../../src/serve/testing/desk-fake.ts';
import { sampleFrame } from '../../src/serve/testing/sample-frame.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';

/** A page that notes what its browser's own EventSource hands it. */
const page = `<!doctype html><html lang="en"><title>t</title><script type="module" src="/assets/page.js"></script>`;
const script = `
globalThis.heard = [];
const source = new EventSource('/api/v1/events');
source.onopen = () => heard.push('open');
for (const name of ['frame', 'resync'])
  source.addEventListener(name, (event) => heard.push(name + ' ' + event.lastEventId));
`;

/** Chromium as outside judge: its event stream client, its security policy, its same-origin rules. */
describe.skipIf(!hasBrowser)('the web door in Chromium', () => {
  let browser: Browser;
  let dir: string;
  let options: { host: string; port: number; pageDir: string; version: string };
  const doors: WebDoor[] = [];
  const servers: Server[] = [];

  beforeAll(async () => {
    browser = await launchBrowser();
    dir = await mkdtemp(join(tmpdir(), 'setside-browser-'));
    await mkdir(join(dir, 'assets'));
    await writeFile(join(dir, 'index.html'), page);
    await writeFile(join(dir, 'assets', 'page.js'), script);
    options = { host: '127.0.0.1', port: 0, pageDir: dir, version: '0' };
  });
  afterEach(async () => {
    for (const door of doors.splice(0)) await door.close();
    for (const server of servers.splice(0)) server.close();
  });
  afterAll(async () => {
    await browser.close();
    await rm(dir, { recursive: true, force: true });
  });

  async function start(desk: DeskFake, port = 0): Promise<WebDoor> {
    const door = await startWebDoor({ ...options, port }, desk);
    doors.push(door);
    return door;
  }

  const kept = (desk: DeskFake, id: string): void =>
    desk.events.publish({ type: 'frame', change: 'kept', frame: sampleFrame({ id }) });

  test('events are heard; after the line broke Chromium resumes by itself and misses nothing', async () => {
    const desk = new DeskFake();
    const door = await start(desk);
    const tab = await browser.newPage();
    const heard = (): Promise<string[]> => tab.evaluate('heard');
    await tab.goto(door.url);
    await vi.waitFor(async () => expect(await heard()).toEqual(['open']), { timeout: 30_000 });
    kept(desk, 'a');
    await vi.waitFor(async () => expect(await heard()).toEqual(['open', 'frame run1-1']), {
      timeout: 30_000,
    });

    await door.close();
    kept(desk, 'missed');
    await start(desk, door.port);
    await vi.waitFor(
      async () => expect(await heard()).toEqual(['open', 'frame run1-1', 'open', 'frame run1-2']),
      { timeout: 30_000 },
    );
    await tab.close();
  });

  test('after a restart of the station Chromium is told to load everything again', async () => {
    const desk = new DeskFake();
    const door = await start(desk);
    const tab = await browser.newPage();
    const heard = (): Promise<string[]> => tab.evaluate('heard');
    await tab.goto(door.url);
    await vi.waitFor(async () => expect(await heard()).toEqual(['open']), { timeout: 30_000 });
    kept(desk, 'a');
    await vi.waitFor(async () => expect(await heard()).toHaveLength(2), { timeout: 30_000 });
    await door.close();
    await start(new DeskFake({ run: 'run2' }), door.port);
    await vi.waitFor(async () => expect((await heard()).at(-1)).toBe('resync run2-0'), { timeout: 30_000 });
    await tab.close();
  });

  test('a page of another origin can neither read, change nor embed anything', async () => {
    const desk = new DeskFake();
    desk.frameList.push(sampleFrame());
    desk.firstViews.set('f1', {
      content: { kind: 'bytes', bytes: await pixel() },
      contentType: 'image/png',
      version: 1,
    });
    const door = await start(desk);
    const server = createServer((_, answer) =>
      answer.setHeader('content-type', 'text/html').end('<!doctype html><title>foreign</title>'),
    ).listen(0, '127.0.0.1');
    servers.push(server);
    await new Promise((resolve) => server.once('listening', resolve));
    const address = server.address();
    const tab = await browser.newPage();
    await tab.goto(`http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}/`);

    const frame = `${door.url}/api/v1/frames/f1`;
    const tried = await tab.evaluate(async (target) => {
      const failed = (): string => 'failed';
      const image = new Image();
      return {
        read: await fetch(target).then((answer) => answer.status, failed),
        blindRead: await fetch(target, { mode: 'no-cors' }).then((answer) => answer.type, failed),
        change: await fetch(target, {
          method: 'PATCH',
          headers: { 'content-type': 'application/json' },
          body: '{"mark":"out"}',
        }).then((answer) => answer.status, failed),
        blindChange: await fetch(target, { method: 'POST', mode: 'no-cors', body: '{}' }).then(
          (answer) => answer.type,
          failed,
        ),
        picture: await new Promise((resolve) => {
          image.onload = () => resolve('shown');
          image.onerror = () => resolve('failed');
          image.src = `${target}/first-view`;
        }),
      };
    }, frame);
    expect(tried).toEqual({
      read: 'failed',
      blindRead: 'failed',
      change: 'failed',
      blindChange: 'failed',
      picture: 'failed',
    });
    expect(desk.asked).toEqual([]);
    expect(desk.frameList[0]?.mark).toBe('none');

    await tab.goto(door.url);
    const own = await tab.evaluate(async () => {
      const image = new Image();
      return new Promise((resolve) => {
        image.onload = () => resolve(image.naturalWidth);
        image.onerror = () => resolve('failed');
        image.src = '/api/v1/frames/f1/first-view';
      });
    });
    expect(own).toBe(1);
    await tab.close();
  });

  test('an uploaded page is saved, never run, and an inline script never runs on our page', async () => {
    const desk = new DeskFake();
    const path = join(dir, 'upload');
    await writeFile(path, '<script>document.title = "run"</script>');
    desk.originals.set('f1/x.html', { path, sizeBytes: 39, sha256: '0'.repeat(64) });
    const door = await start(desk);
    const tab = await browser.newPage();
    const download = tab.waitForEvent('download');
    await tab.goto(`${door.url}/api/v1/frames/f1/files/x.html`).catch(() => {});
    expect((await download).suggestedFilename()).toBe('x.html');

    await tab.goto(door.url);
    const [before, after] = await tab.evaluate(() => {
      const title = document.title;
      const inline = document.createElement('script');
      inline.textContent = 'document.title = "run"';
      document.body.append(inline);
      return [title, document.title];
    });
    expect(before).not.toBe('run');
    expect(after).toBe(before);
    await tab.close();
  });
});

/** A PNG of one pixel, made by a general-purpose library. */
async function pixel(): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  const picture = sharp({ create: { width: 1, height: 1, channels: 3, background: '#888' } });
  return new Uint8Array(await picture.png().toBuffer());
}
