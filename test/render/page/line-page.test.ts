import { expect, test } from 'vitest';
import type { LineCheck } from '../../../src/contract/index.ts';
import { sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { sampleLine } from '../../../src/page/testing/sample-line.ts';
import { axeFindings } from './axe.ts';
import { type Scene, stage } from './stage.ts';

const { open } = stage();

const shut: LineCheck = {
  ...sampleLine,
  open: false,
  firewall: {
    kind: 'nftables',
    read: true,
    commands: ['sudo nft insert rule inet filter input tcp dport 50000-50099 accept'],
  },
  cameras: sampleLine.cameras.map((camera) => ({
    ...camera,
    speed: {
      ...{
        files: 14,
        since: '2026-10-01T07:58:00.000Z',
        bytesPerSecond: 4e6,
        slowest: 3.1e6,
        fastest: 4.4e6,
        busy: 0.34,
      },
      raw: { bytes: 25e6, measured: true, seconds: 6.25 },
      jpeg: { bytes: 3e6, measured: false, seconds: 0.75 },
      firstViewSeconds: 1.4,
      cableSeconds: 0.4,
      finding: {
        code: 'line-speed.measured',
        args: {
          ...{ files: 14, bytesPerSecond: 4e6, slowest: 3.1e6, fastest: 4.4e6, busyPercent: 34 },
          ...{
            rawBytes: 25e6,
            rawMs: 6250,
            rawFrom: 'measured',
            jpegBytes: 3e6,
            jpegMs: 750,
            jpegFrom: 'assumed',
          },
          ...{ firstViewMs: 1400, cableMs: 400, cableBytesPerSecond: 62.5e6 },
        },
      },
    },
  })),
  findings: [
    {
      ...{ code: 'line-check.passive-shut', weight: 'shut', sure: 'certain', camera: null },
      cause: { code: 'line-check.passive-shut', args: { ports: '50000-50099' } },
      evidence: [
        {
          code: 'line-seen.rule',
          args: { kind: 'nftables', chain: 'inet filter input', ports: '50000-50099', count: 2 },
        },
      ],
      cures: [
        {
          finding: {
            code: 'line-cure.open-firewall',
            args: { ports: '50000-50099', count: 2, sources: '192.168.7.0/24' },
          },
          commands: ['sudo nft insert rule inet filter input tcp dport 50000-50099 accept'],
          at: 'station',
        },
      ],
    },
    {
      ...{ code: 'line-check.address-dealt-out', weight: 'note', sure: 'certain', camera: null },
      cause: { code: 'line-check.address-dealt-out', args: { address: '192.168.7.20' } },
      evidence: [],
      cures: [
        {
          finding: {
            code: 'line-cure.reserve',
            args: { address: '192.168.7.20', hardware: '02:00:5e:00:53:01', gateway: '192.168.7.1' },
          },
          commands: [],
          at: 'network',
        },
      ],
    },
  ],
};

async function linePage(line: LineCheck): Promise<Scene> {
  const scene = await open((fake) => {
    fake.line = line;
  });
  await scene.page.goto(`${scene.station.url}#/line`);
  await scene.page.getByRole('list', { name: 'The way of a frame' }).waitFor();
  return scene;
}

test('the way is drawn from camera to disk, each piece with a word beside its shape', async () => {
  const { page } = await linePage(sampleLine);
  const pieces = page.locator('.way > li');
  expect(await pieces.locator('h2').allTextContents()).toEqual([
    'Camera',
    'Air or cable',
    'Router',
    'This computer',
    'Disk',
  ]);
  expect(await pieces.locator('.way-state').allTextContents()).toEqual(Array(5).fill('open'));
  expect(await page.locator('.line-said').textContent()).toBe('The way from camera to disk is open.');
  expect(await axeFindings(page)).toEqual([]);
});

test('where it is shut the page says what mends it, with the lines to copy, and runs none', async () => {
  const { page } = await linePage(shut);
  expect(await page.locator('.line-said').textContent()).toBe('The way is shut: on this computer.');
  expect(await page.locator('.way > li[data-state="shut"] h2').allTextContents()).toEqual(['This computer']);
  const todo = page.locator('.line-part', { has: page.getByRole('heading', { name: 'What to do' }) });
  expect(await todo.textContent()).toContain('Open ports 50000-50099 in the firewall for 192.168.7.0/24.');
  expect(await todo.locator('pre').textContent()).toContain('sudo nft insert rule');
  expect(await todo.textContent()).toContain('http://192.168.7.1/');
  await todo.getByText('How that is known').first().click();
  expect(await todo.getByText('inet filter input lets no new connection').isVisible()).toBe(true);
  expect(await axeFindings(page)).toEqual([]);
});

test('a camera that sent files is told what its speed means', async () => {
  const { page } = await linePage(shut);
  const said = (await page.locator('.line-cameras').textContent()) ?? '';
  expect(said).toContain('A raw of 25.0 MB takes 6.3 s');
  expect(said).toContain('The line was busy 34 % of that time.');
});

test('where no camera has come, nothing is called open that nobody has passed', async () => {
  const nobody = sampleLine.cameras.map((camera) => ({ ...camera, lastSeen: null, bytesPerSecond: null }));
  const { page } = await linePage({ ...sampleLine, cameras: nobody });
  expect(await page.locator('.way-state').allTextContents()).toEqual([
    ...Array(3).fill('not seen yet'),
    ...Array(2).fill('open'),
  ]);
  expect(await page.locator('.line-said').textContent()).toContain('No camera has come since');
});

test('until a camera has come since the start, looking at it is what is to be done', async () => {
  const came = { code: 'line-check.nothing-came', args: {} };
  const { page } = await linePage({
    ...sampleLine,
    findings: [
      {
        ...{ code: came.code, weight: 'note', sure: 'certain', camera: null, evidence: [], cause: came },
        cures: [
          {
            finding: {
              code: 'line-cure.check-camera',
              args: { local: '192.168.7.20', network: '192.168.7.0/24', port: '2121' },
            },
            commands: [],
            at: 'camera',
          },
        ],
      },
    ],
  });
  expect(await page.locator('.line-said').textContent()).toContain('No camera has come since the start');
  const todo = page.locator('.line-part', { hasText: 'What to do' }).first();
  expect(await todo.textContent()).toContain('Look whether the camera is on');
  expect(await todo.textContent()).not.toContain('Nothing.');
  expect(await todo.textContent()).not.toContain('Good to know');
});

test('a press looks again, and what has changed is drawn', async () => {
  const { page, station } = await linePage(shut);
  station.line = sampleLine;
  await page.getByRole('button', { name: 'Look again' }).click();
  await expect
    .poll(() => page.locator('.line-said').textContent())
    .toBe('The way from camera to disk is open.');
});

test('the Set page leads here, by its switches and by what it says of the line', async () => {
  const { page, station } = await open((fake) => {
    const { doors } = fake.station;
    const trouble = { code: 'line.port-in-use', args: { port: 2121, door: 'FTP' } };
    fake.station = sampleStation({ doors: doors.map((door) => ({ ...door, port: null, trouble })) });
  });
  const links = page.getByRole('link', { name: 'Line', exact: true });
  await expect.poll(() => links.count()).toBeGreaterThanOrEqual(2);
  await links.last().click();
  await page.getByRole('list', { name: 'The way of a frame' }).waitFor();
  expect(page.url()).toBe(`${station.url}#/line`);
});

test('on a phone the way runs down, and nothing is wider than the screen', async () => {
  const { page } = await linePage(shut);
  await page.setViewportSize({ width: 390, height: 844 });
  const tops = await page
    .locator('.way > li')
    .evaluateAll((pieces) => pieces.map((piece) => piece.getBoundingClientRect().top));
  expect(tops).toEqual([...tops].sort((one, other) => one - other));
  expect(new Set(tops).size).toBe(5);
  const todo = await page.locator('.line-todo').evaluate((part) => part.getBoundingClientRect().top);
  expect(todo).toBeLessThan(tops[0] ?? 0);
  const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  expect(widths[0]).toBeLessThanOrEqual(widths[1] ?? 0);
});
