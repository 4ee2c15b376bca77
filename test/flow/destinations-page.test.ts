import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { delivery, destinationList, problem } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Destinations that are changed on the Hand-over page, over the real station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('a destination that is changed on the page', () => {
  let home: string;
  /** A disk of the client. */
  let disk: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];
  const heard: string[] = [];

  beforeAll(async () => {
    home = await newHome();
    disk = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await send('PUT', '/destinations/client', { place: { kind: 'folder', path: disk } });
    const server = { kind: 'sftp', host: 'files.example', user: 'studio', logInBy: 'password', hostKey };
    expect((await send('PUT', '/destinations/printer', { place: server, secret: 'Secret-7' })).status).toBe(
      201,
    );
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('response', (response) => {
      if (response.url().includes('/destinations'))
        response.text().then(
          (text) => heard.push(text),
          () => {},
        );
    });
    await page.goto(`${station.ready.web}/#/hand-over`);
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
    await removeHome(disk);
  });

  const hostKey = `SHA256:${'A'.repeat(43)}`;
  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }
  const known = async (): Promise<unknown> =>
    destinationList.parse(await (await send('GET', '/destinations')).json()).destinations;
  const secret = async (name: string): Promise<unknown> =>
    JSON.parse(await readFile(join(home, `keys/destination-${name}.json`), 'utf8'));
  const row = (name: string) =>
    page.locator('[data-part="destinations"] li').filter({ has: page.getByText(name, { exact: true }) });

  test('another folder there and another name: key and secret stay, and no field shows the secret', async () => {
    await row('printer').getByRole('button', { name: 'Change it' }).press('Enter');
    const form = page.getByRole('form', { name: 'Change printer' });
    expect(await form.getByLabel('Server').inputValue()).toBe('files.example');
    expect(await form.getByLabel('Password', { exact: true }).inputValue()).toBe('');
    expect(await form.getByLabel('What it is').isDisabled()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    await form.getByLabel('Name', { exact: true }).fill('client');
    await form.getByRole('button', { name: 'Keep the change' }).press('Enter');
    await form.getByText('There is a destination of this name.').waitFor();
    await form.getByLabel('Name', { exact: true }).fill('lab');
    await form.getByLabel('Folder there').fill('in/today');
    await form.getByRole('button', { name: 'Keep the change' }).press('Enter');
    await row('lab').getByText('in/today').waitFor();
    await row('lab').getByText(hostKey).waitFor();
    expect(await known()).toMatchObject([
      { name: 'client' },
      { name: 'lab', place: { path: 'in/today', hostKey }, secret: 'kept' },
    ]);
    expect(await secret('lab')).toEqual({ from: 'kept', text: 'Secret-7' });
    expect(await readdir(join(home, 'keys'))).not.toContain('destination-printer.json');
  });

  test('another server: its key is to be compared anew, and the secret is said again', async () => {
    await row('lab').getByRole('button', { name: 'Change it' }).press('Enter');
    const form = page.getByRole('form', { name: 'Change lab' });
    await form.getByLabel('Server').fill('other.example');
    await form.getByRole('button', { name: 'Keep the change' }).press('Enter');
    await row('lab').getByText('no secret is kept').waitFor();
    await row('lab').getByText('host key not compared yet').waitFor();
    await row('lab').getByRole('button', { name: 'Change it' }).press('Enter');
    await form.getByLabel('Password', { exact: true }).fill('Secret-8');
    await form.getByRole('button', { name: 'Keep the change' }).press('Enter');
    await row('lab').getByText('secret kept by the station').waitFor();
    expect(await secret('lab')).toEqual({ from: 'kept', text: 'Secret-8' });
    expect(await page.content()).not.toContain('Secret-');
    expect(heard.join('')).not.toContain('Secret-');
  });

  test('the name stays as long as a delivery goes there by it', async () => {
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    const file = join(home, 'QMST0001.JPG');
    const background = { r: 100, g: 100, b: 100 };
    const bytes = await sharp({ create: { width: 64, height: 48, channels: 3, background } })
      .jpeg()
      .toBuffer();
    await writeFile(file, bytes);
    expect((await curlUpload(station, file, '/QMST0001.JPG')).code).toBe(0);
    const frame = await eventually('the picture', async () =>
      (await station.frames()).find(({ picture }) => picture.state === 'rendered'),
    );
    // The disk is not plugged in, so the delivery waits.
    await rm(disk, { recursive: true });
    const specification = {
      ...{ version: 1, title: 'There', size: { kind: 'full' }, format: { kind: 'png', depth: 8 } },
      destination: { kind: 'named', name: 'client' },
    };
    const body = { job: 'QM-26', specification, frames: [frame.id] };
    const { id } = delivery.parse(await (await send('POST', '/deliveries', body)).json());
    const place = { kind: 'folder', path: disk };
    const refused = await send('PUT', '/destinations/client', { place, name: 'disk' });
    expect(refused.status).toBe(409);
    expect(problem.parse(await refused.json()).code).toBe('destination-busy');
    await mkdir(disk);
    expect((await send('PUT', '/destinations/client', { place })).status).toBe(200);
    expect((await send('PATCH', `/deliveries/${id}`, { state: 'aborted' })).status).toBe(200);
    const renamed = await send('PUT', '/destinations/client', { place, name: 'disk' });
    expect(renamed.status).toBe(200);
    expect(await known()).toMatchObject([{ name: 'disk', place }, { name: 'lab' }]);
  });

  test('what is not there cannot be given another name, and a name that is taken is refused', async () => {
    const place = { kind: 'folder', path: disk };
    const nobody = await send('PUT', '/destinations/nobody', { place, name: 'somebody' });
    expect(problem.parse(await nobody.json()).code).toBe('no-destination');
    const taken = await send('PUT', '/destinations/disk', { place, name: 'lab' });
    expect(problem.parse(await taken.json()).code).toBe('destination-there');
    expect(await known()).toMatchObject([{ name: 'disk' }, { name: 'lab' }]);
  });

  test('nothing broke in the page', () => expect(complaints).toEqual([]));
});
