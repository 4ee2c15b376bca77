import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import sharp from 'sharp';
import { expect } from 'vitest';
import { type Agreement, agreementList, type Frame, frame as frameShape } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

export const canStage: boolean = hasBrowser && hasProgram('curl');

interface MadeLink {
  readonly link: { readonly id: string };
  readonly addresses: readonly { readonly url: string }[];
  readonly door: { readonly port: number };
}

/** A station with a job of three pictures, one of them the hero, a client's tablet with a link, and the Set page beside it. */
export class GuestStage {
  readonly home: string;
  readonly browser: Browser;
  readonly tablet: BrowserContext;
  readonly guest: Page;
  readonly set: Page;
  /** What browsers put up with in silence nowhere else: breaches of the policy, errors of scripts. */
  readonly complaints: string[] = [];
  station: RunningStation;
  link: MadeLink = { link: { id: '' }, addresses: [], door: { port: 0 } };
  mug = '';

  private constructor(
    home: string,
    station: RunningStation,
    browser: Browser,
    on: readonly BrowserContext[],
    pages: readonly Page[],
  ) {
    const [tablet] = on;
    const [guest, set] = pages;
    if (tablet === undefined || guest === undefined || set === undefined)
      throw new Error('two pages are wanted');
    this.home = home;
    this.station = station;
    this.browser = browser;
    this.tablet = tablet;
    this.guest = guest;
    this.set = set;
    for (const page of pages) this.#listen(page);
  }

  static async open(): Promise<GuestStage> {
    const home = await newHome();
    const station = await startStation(home);
    const browser = await launchBrowser();
    const tablet = await browser.newContext({
      ignoreHTTPSErrors: true,
      viewport: { width: 820, height: 1180 },
      hasTouch: true,
    });
    const desk = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    const pages = [await tablet.newPage(), await desk.newPage()];
    const stage = new GuestStage(home, station, browser, [tablet], pages);
    await stage.#prepare();
    return stage;
  }

  async #prepare(): Promise<void> {
    await this.call('POST', '/api/v1/jobs', {
      code: 'POTS',
      title: 'Autumn pots',
      client: 'Nobody',
      open: true,
    });
    const job = (await this.call('POST', '/api/v1/jobs/POTS/shots', { name: 'Mug', agreement: true })) as {
      shots: { id: string }[];
    };
    this.mug = job.shots[0]?.id ?? '';
    await this.call('PATCH', '/api/v1/jobs/POTS', { currentShot: this.mug });
    for (const [index, name] of ['POTS0001.JPG', 'POTS0002.JPG', 'POTS0003.JPG'].entries())
      await this.upload(name, 60 + 60 * index);
    await this.set.goto(this.station.ready.web);
    await this.mark('POTS0001.JPG', 'hero');
    this.link = await this.makeLink({
      scope: 'guest',
      name: 'client’s tablet',
      share: { job: 'POTS', shots: [] },
    });
    await this.enter(this.guest, this.link);
    await this.guest.waitForURL('**/guest');
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.station.stop();
    await removeHome(this.home);
  }

  async makeLink(wish: object): Promise<MadeLink> {
    return (await this.call('POST', '/api/v1/links', wish)) as MadeLink;
  }

  /** Chromium does not know the station's root here; that it is right, curl says in links.test.ts. */
  async enter(page: Page, { door, addresses }: MadeLink): Promise<void> {
    await page.goto(`https://127.0.0.1:${door.port}/in#${addresses[0]?.url.split('#')[1]}`);
  }

  async call(method: string, path: string, body?: object): Promise<unknown> {
    const answer = await fetch(`${this.station.ready.web}${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }

  async upload(name: string, tone: number): Promise<void> {
    const file = join(this.home, name);
    const background = { r: tone, g: tone, b: tone };
    await writeFile(
      file,
      await sharp({ create: { width: 600, height: 400, channels: 3, background } })
        .jpeg()
        .toBuffer(),
    );
    expect((await curlUpload(this.station, file, `/${name}`)).code).toBe(0);
    await eventually(
      `${name} is rendered`,
      async () => (await this.named(name)).picture.state === 'rendered',
    );
  }

  async named(name: string): Promise<Frame> {
    const found = (await this.station.frames()).find((each) => each.name === name);
    return frameShape.parse(await this.call('GET', `/api/v1/frames/${found?.id}`));
  }

  async patch(name: string, change: object): Promise<void> {
    await this.call('PATCH', `/api/v1/frames/${(await this.named(name)).id}`, change);
  }

  mark(name: string, wanted: string): Promise<void> {
    return this.patch(name, { mark: wanted });
  }

  async words(): Promise<readonly Agreement[]> {
    return agreementList.parse(await this.call('GET', '/api/v1/jobs/POTS/agreements')).agreements;
  }

  picture(page: Page, name: string): Locator {
    return page.locator('.guest-picture').filter({ hasText: name });
  }

  /** The picture that the tablet shows large. */
  large(): Locator {
    return this.guest.getByRole('dialog').first();
  }

  #listen(page: Page): void {
    page.on('pageerror', (error) => this.complaints.push(error.message));
    page.on('console', (line) => {
      if (line.type() === 'error' && /Content Security Policy|Uncaught/.test(line.text()))
        this.complaints.push(line.text());
    });
  }
}

/** Breaches of WCAG that axe finds on a page. */
export async function axe(page: Page): Promise<unknown> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)]);
}
