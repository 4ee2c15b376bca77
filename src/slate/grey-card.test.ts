import { expect, test } from 'vitest';
import { isGreyCard, type SmallPicture } from './grey-card.ts';

const [widthPx, heightPx] = [48, 32];

/** A picture of one encoded colour, changed point by point. */
function picture(
  rgb: readonly [number, number, number],
  change: (x: number, y: number) => number = () => 1,
): SmallPicture {
  const data = new Uint8Array(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      for (const [channel, value] of rgb.entries()) {
        data[(y * widthPx + x) * 3 + channel] = Math.round(value * change(x, y));
      }
    }
  }
  return { data, widthPx, heightPx };
}

// 18 % reflectance in sRGB (IEC 61966-2-1): 1.055 * 0.18^(1/2.4) - 0.055 = 0.461, times 255.
const grey = [118, 118, 118] as const;

test.each([
  ['18 % grey', picture(grey)],
  ['with light that falls off by half a stop to the side', picture(grey, (x) => 1 - 0.14 * (x / widthPx))],
  ['with noise of one code value', picture(grey, (x, y) => 1 + (((x * 31 + y * 17) % 3) - 1) / 118)],
  ['half a stop over', picture([141, 141, 141])],
  ['in light a little warm', picture([121, 118, 110])],
])('%s is a grey card', (_what, shown) => {
  expect(isGreyCard(shown)).toBe(true);
});

test.each([
  ['white paper', picture([235, 235, 235])],
  ['a lens cap', picture([20, 20, 20])],
  ['a painted wall', picture([130, 118, 90])],
  ['a cup on a grey backdrop', picture(grey, (x, y) => (Math.hypot(x - 24, y - 16) < 6 ? 1.5 : 1))],
  ['a cup that has the lightness of the backdrop and another colour', cup()],
  ['a grey cloth with a weave', picture(grey, (x, y) => ((x + y) % 2 === 0 ? 1.05 : 0.95))],
  ['a card that fills three quarters', picture(grey, (x) => (x < 36 ? 1 : 0.4))],
  ['a backdrop from light to dark', picture(grey, (_x, y) => 0.6 + (0.8 * y) / heightPx)],
  ['a picture too small to tell', { data: new Uint8Array(3 * 64).fill(118), widthPx: 8, heightPx: 8 }],
])('%s is none', (_what, shown) => {
  expect(isGreyCard(shown)).toBe(false);
});

function cup(): SmallPicture {
  const shown = picture(grey);
  for (let y = 10; y < 22; y += 1) {
    for (let x = 18; x < 30; x += 1) shown.data.set([140, 112, 100], (y * widthPx + x) * 3);
  }
  return shown;
}
