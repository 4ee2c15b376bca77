import sharp from 'sharp';
import { codeModules, quietModules } from '../../src/slate/index.ts';

export interface PictureWish {
  /** The camera's time, ms since 1970; written in UTC with sub-seconds. */
  readonly takenMs: number;
  /** Texts of codes held into the picture, side by side; none for a plain picture. */
  readonly codes?: readonly string[];
  /** The backdrop as CSS has it. */
  readonly background?: string;
}

const size = { width: 1200, height: 800 } as const;

/** A camera's JPEG: a backdrop with a bright ball on it, and what is held into it. */
export function cameraPicture({ takenMs, codes, background = '#4a5a68' }: PictureWish): Promise<Buffer> {
  const at = new Date(takenMs).toISOString();
  const ball = Buffer.from(
    `<svg width="300" height="300"><circle cx="150" cy="150" r="120" fill="#d8b48a"/></svg>`,
  );
  const cards = (codes ?? []).map((text, index) => ({
    input: cardSvg(text, 260),
    left: 120 + index * 620,
    top: 260,
  }));
  return sharp({ create: { ...size, channels: 3, background } })
    .composite(codes === undefined ? [] : [{ input: ball, left: 800, top: 60 }, ...cards])
    .jpeg()
    .withExif({
      IFD2: {
        DateTimeOriginal: at.slice(0, 19).replaceAll('-', ':').replace('T', ' '),
        SubSecTimeOriginal: at.slice(20, 22),
        OffsetTimeOriginal: '+00:00',
        ExposureTime: '1/125',
        FNumber: '8/1',
        ISOSpeedRatings: '100',
      },
    })
    .toBuffer();
}

/** Drawn module by module, not by the path under test. */
function cardSvg(text: string, edgePx: number): Buffer {
  const { size: modules, dark } = codeModules(text);
  const all = modules + 2 * quietModules;
  const cells = Array.from(dark, (value, at) =>
    value === 0
      ? ''
      : `<rect x="${(at % modules) + quietModules}" y="${Math.floor(at / modules) + quietModules}" width="1.02" height="1.02"/>`,
  );
  return Buffer.from(
    `<svg width="${edgePx}" height="${edgePx}" viewBox="0 0 ${all} ${all}"><rect width="${all}" height="${all}" fill="#eee"/>${cells.join('')}</svg>`,
  );
}
