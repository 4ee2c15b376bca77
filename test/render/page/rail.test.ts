import { expect, test } from 'vitest';
import { sampleFrame } from '../../../src/page/testing/sample-frame.ts';
import { arrivingFrame, brokenOffFrame, shootDay } from './day.ts';
import { type Scene, stage } from './stage.ts';
import { stillLifeJpeg } from './still-life.ts';

const { open } = stage();
const life = { place: 0.4, hue: 30, light: 1 };

const counted = (second: number, counter: number) => {
  const name = `A_SS${String(counter).padStart(4, '0')}.DNG`;
  return sampleFrame(`f${counter}`, second, { name, counter });
};

async function burst(viewport: { width: number; height: number }): Promise<Scene> {
  const scene = await open(
    async (station) => {
      const rendering = await stillLifeJpeg(life, 600, 400);
      for (let index = 0; index < 3; index += 1) station.put(counted(index * 14, 10 + index), { rendering });
      for (let index = 0; index < 10; index += 1)
        station.put(counted(60 + index / 10, 13 + index), { rendering });
    },
    { viewport },
  );
  await scene.page.locator('.rail-frame[aria-current="true"]').waitFor();
  return scene;
}

test.each([
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
])(
  'at $width × $height ten frames of one second are all in sight, each named, under one line',
  async (viewport) => {
    const { page } = await burst(viewport);
    expect(await page.locator('.rail-burst').textContent()).toBe('10 in 0.9 s');
    const boxes = await page.locator('.rail-frame').evaluateAll((frames) =>
      frames.map((frame) => {
        const { top, bottom, left, right } = frame.getBoundingClientRect();
        const name = frame.querySelector('.rail-name span:last-child');
        const cut = name === null || name.scrollWidth > name.clientWidth;
        return { top, bottom, left, right, cut, text: name?.textContent ?? '' };
      }),
    );
    const inBurst = boxes.filter(({ text }) => Number(text.slice(-2)) >= 13);
    expect(inBurst).toHaveLength(10);
    for (const one of inBurst) {
      expect(one.top).toBeGreaterThanOrEqual(0);
      expect(one.bottom).toBeLessThanOrEqual(viewport.height);
      expect(one.cut, one.text).toBe(false);
      for (const other of inBurst) {
        if (one === other) continue;
        const apart =
          one.bottom <= other.top ||
          other.bottom <= one.top ||
          one.right <= other.left ||
          other.right <= one.left;
        expect(apart, `${one.text} and ${other.text}`).toBe(true);
      }
    }
  },
);

test('pointing at a frame or focusing it gives its name, camera, time and size; Escape sends that away', async () => {
  const { page } = await open((station) => station.put(counted(0, 41)));
  const frame = page.locator('.rail-frame');
  const flag = page.getByTestId('rail-flag');
  await frame.hover();
  const text = (await flag.textContent()) ?? '';
  for (const part of ['A_SS0041.DNG', 'cam1', '24.6 MB']) expect(text).toContain(part);
  expect(text).toMatch(/\d\d:\d\d:\d\d/);
  // WCAG 2.2, 1.4.13: the pointer may go over to what came up, and Escape sends it away.
  const box = await flag.boundingBox();
  if (box === null) throw new Error('expected a flag');
  await page.mouse.move(box.x + 20, box.y + 20);
  expect(await flag.isVisible()).toBe(true);
  await page.keyboard.press('Escape');
  await flag.waitFor({ state: 'detached' });
  await page.mouse.move(700, 400);
  await frame.focus();
  await flag.waitFor();
  expect(await frame.getAttribute('aria-label')).toContain('24.6 MB');
});

test('with several cameras each lane is named and holds that camera’s frames', async () => {
  const { page } = await open((station) => shootDay(station, { judged: false, cameras: 2 }));
  await page.locator('[data-testid="picture"][data-frame-id="f16"]').waitFor();
  const lanes = await page
    .locator('.rail-lanes li')
    .evaluateAll((items) =>
      items.map((item) => ({ name: item.textContent, left: item.getBoundingClientRect().left })),
    );
  expect(lanes.map(({ name }) => name)).toEqual(['cam1', 'cam2']);
  const frames = await page
    .locator('.rail-frame')
    .evaluateAll((items) =>
      items.map((item) => ({ said: item.ariaLabel ?? '', left: item.getBoundingClientRect().left })),
    );
  for (const { said, left } of frames) {
    const lane = lanes.find(({ name }) => said.includes(`, ${name},`));
    expect(Math.abs(left - (lane?.left ?? -1)), said).toBeLessThanOrEqual(1);
  }
});

test('of four cameras each leader is drawn up to the picture it belongs to', async () => {
  const { page } = await open((station) => {
    for (const [lane, camera] of ['cam1', 'cam2', 'cam3', 'cam4'].entries())
      station.put(sampleFrame(`f${lane}`, lane * 20, { camera }));
  });
  await page.locator('.rail-frame[aria-current="true"]').waitFor();
  const lefts = await page
    .locator('.rail-frame')
    .evaluateAll((frames) => frames.map((frame) => frame.getBoundingClientRect().left));
  const axis = await page.locator('.rail-axis').boundingBox();
  const ends = await page
    .locator('.leader')
    .evaluateAll((leaders) => leaders.map((leader) => leader.getBoundingClientRect().right));
  expect(lefts).toHaveLength(4);
  expect(new Set(lefts).size).toBeGreaterThan(2);
  const ordered = (values: readonly number[]) => [...values].map(Math.round).sort((one, two) => one - two);
  expect(ordered(ends)).toEqual(ordered(lefts));
  // What lies beyond the drawing's edge is not painted.
  expect((axis?.x ?? 0) + (axis?.width ?? 0)).toBeGreaterThanOrEqual(Math.max(...ends));
});

test('a frame on its way shows its share, speed and seconds to go, and fills; one that broke off says how far it came', async () => {
  const { page, station } = await open((fake) => {
    fake.put(brokenOffFrame('n0', 0, 0.41));
    fake.put(arrivingFrame('n1', 30, 0.25));
  });
  const rail = page.locator('.rail');
  await rail.getByText('25 %').waitFor();
  // 24.6 MB, three quarters of it to come at 4.1 MB/s: 4.5 s.
  expect(await page.locator('.rail-progress').textContent()).toBe('25 %4.1 MB/s5 s');
  const filled = () =>
    page
      .locator('.rail-frame', { hasText: 'MB/s' })
      .locator('.rail-bytes')
      .evaluate((bar) => bar.getBoundingClientRect().height);
  const before = await filled();
  station.tell({
    type: 'arrival',
    change: 'progress',
    frame: { ...arrivingFrame('n1', 30, 0.75), version: 2 },
  });
  await rail.getByText('75 %').waitFor();
  expect((await filled()) / before).toBeCloseTo(3, 1);
  await rail.getByText('Broken off at 41 %.').waitFor();
  // Made good: the sentence goes.
  station.change('n0', { ...sampleFrame('n0', 0), version: 1 });
  await rail.getByText('Broken off at 41 %.').waitFor({ state: 'detached' });
});

test('of five hundred frames only those in sight are on the page, wherever the rail is scrolled to', async () => {
  const { page } = await open((station) => {
    station.listingLimitMax = 500;
    for (let index = 0; index < 500; index += 1) station.put(counted(index * 9, index + 1));
  });
  await page.locator('.rail-frame[aria-current="true"]', { hasText: 'A_SS0500' }).waitFor();
  const drawn = () => page.locator('.rail-frame').count();
  const parts = () => page.locator('.rail *').count();
  expect(await drawn()).toBeLessThan(40);
  await page.locator('.rail-scroll').evaluate((rail) => {
    rail.scrollTop = rail.scrollHeight / 2;
  });
  await page.locator('.rail-frame', { hasText: 'A_SS0250' }).waitFor();
  expect(await drawn()).toBeLessThan(40);
  expect(await parts()).toBeLessThan(600);
});

test('a rail that was scrolled back stays there when a frame comes, and goes to the newest when asked', async () => {
  const { page, station } = await open((station) => {
    station.listingLimitMax = 500;
    for (let index = 0; index < 100; index += 1) station.put(counted(index * 9, index + 1));
  });
  await page.locator('.rail-frame[aria-current="true"]', { hasText: 'A_SS0100' }).waitFor();
  const rail = page.locator('.rail-scroll');
  await rail.evaluate((element) => {
    element.scrollTop = 500;
  });
  const toNewest = page.locator('.to-newest');
  await toNewest.waitFor();
  station.begin(counted(1000, 101));
  await page
    .locator('.rail-frame[aria-current="true"]', { hasText: 'A_SS0101' })
    .waitFor({ state: 'attached' });
  expect(await rail.evaluate(({ scrollTop }) => scrollTop)).toBe(500);
  await toNewest.click();
  await toNewest.waitFor({ state: 'detached' });
  const left = () => rail.evaluate((e) => e.scrollHeight - e.clientHeight - e.scrollTop);
  expect(await left()).toBeLessThan(2);
  station.begin(counted(1009, 102));
  await page.locator('.rail-frame[aria-current="true"]', { hasText: 'A_SS0102' }).waitFor();
  await expect.poll(left).toBeLessThan(2);
});

test('of a broken-off frame the rail says in two lines at most how far it came, even of three cameras', async () => {
  const { page } = await open((station) => {
    for (const [index, camera] of ['anna', 'cam1', 'kiln2'].entries())
      station.put({ ...brokenOffFrame(`b${index}`, index, 0.003), camera });
  });
  await page.locator('.rail-trouble').nth(2).waitFor();
  expect(await page.locator('.rail-trouble').allTextContents()).toEqual(
    Array(3).fill('Broken off at under 1 %.'),
  );
  const heights = await page
    .locator('.rail-trouble')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
  for (const height of heights) expect(height).toBeLessThanOrEqual(40);
});

test('frames of a burst without counters are told apart by the ends of their names, none of them cut', async () => {
  const names = ['tall-1.JPG', 'tall-2.JPG', 'tall-3.JPG', 'tall-4.JPG', '.hidden.jpg'];
  const { page } = await open((station) => {
    for (const camera of ['cam1', 'cam2', 'cam3'])
      for (const [index, name] of names.entries())
        station.put(sampleFrame(`${camera}${index}`, index / 10, { name, camera, counter: null }));
  });
  await page.locator('.rail-frame').nth(14).waitFor();
  await page.evaluate(() => document.fonts.ready);
  const said = await page
    .locator('.rail-name span:last-child')
    .evaluateAll((all) => all.map((one) => [one.textContent, one.scrollWidth > one.clientWidth]));
  expect(said.map(([text]) => text).sort()).toEqual(
    ['1', '2', '3', '4', 'n'].flatMap((end) => [end, end, end]),
  );
  expect(said.filter(([, cut]) => cut)).toEqual([]);
});

test('on a phone, where cameras share a lane, each frame names its camera', async () => {
  const { page } = await open(
    (station) => {
      for (const [index, camera] of ['anna', 'kiln2'].entries())
        station.put(sampleFrame(camera, index * 20, { name: 'P_0001.DNG', counter: 1, camera }));
    },
    { viewport: { width: 390, height: 844 } },
  );
  await page.locator('.rail-frame').nth(1).waitFor();
  expect(await page.locator('.rail-camera').allTextContents()).toEqual(['anna', 'kiln2']);
});

test('a frame that is chosen from beyond the edge lies clear of the cameras’ names, and so does its ring', async () => {
  const { page } = await open((station) => {
    for (let index = 0; index < 40; index += 1)
      station.put(sampleFrame(`f${index}`, index * 20, { camera: index % 2 === 0 ? 'cam1' : 'cam2' }));
  });
  await page.locator('.rail-frame[aria-current="true"][data-frame-id="f39"]').waitFor();
  for (let index = 38; index > 20; index -= 1) {
    await page.keyboard.press('ArrowUp');
    await page.locator(`.rail-frame[aria-current="true"][data-frame-id="f${index}"]`).waitFor();
    const frame = await page.locator('.rail-frame[aria-current="true"]').boundingBox();
    const names = await page.locator('.rail-lanes li').first().boundingBox();
    if (frame === null || names === null) throw new Error('expected a chosen frame and the cameras’ names');
    expect(frame.y - 6).toBeGreaterThanOrEqual(names.y + names.height);
  }
});
