import { metadataFields, type Specification } from './specification.ts';

const metadata = { fields: [...metadataFields], privateFields: [] };
const toJob = { kind: 'job' } as const;

/**
 * Specifications by purpose, every value written out. Sizes, qualities and strengths are common practice, without a source; who
 * has a client's own sheet of requirements writes a document of their own.
 */
export const specifications: Readonly<Record<string, Specification>> = {
  'web-shop': {
    version: 1,
    title: 'Web shop, square',
    description: 'A product on white, square, filling 85 % of the frame, for the pages of a shop.',
    marks: ['hero'],
    size: { kind: 'exact', widthPx: 2000, heightPx: 2000, fillPercent: 85 },
    enlarge: false,
    format: { kind: 'jpeg', quality: 90, bytesMax: 2_000_000, qualityMin: 70 },
    space: 'srgb',
    profileVersion: 2,
    sharpening: { widthPx: 0.6, strength: 0.5 },
    pixelsPerInch: 72,
    background: { kind: 'white', leastCode: 250, darkPercentMax: 0, extend: true },
    copySpace: null,
    naming: '',
    metadata,
    destination: toJob,
  },
  print: {
    version: 1,
    title: 'Print',
    description:
      'Every pixel in 16 bits and a wide space, not sharpened: the printer sharpens for the paper.',
    marks: ['hero'],
    size: { kind: 'full' },
    enlarge: false,
    format: { kind: 'tiff', depth: 16, compression: 'deflate' },
    space: 'adobe-rgb',
    profileVersion: 2,
    sharpening: { widthPx: 0.6, strength: 0 },
    pixelsPerInch: 300,
    background: { kind: 'as-photographed' },
    copySpace: null,
    naming: '',
    metadata,
    destination: toJob,
  },
  social: {
    version: 1,
    title: 'Social pages',
    description: 'A long edge of 2048 pixels for pages that make their own sizes of it.',
    marks: ['hero', 'select'],
    size: { kind: 'long-edge', px: 2048 },
    enlarge: false,
    format: { kind: 'jpeg', quality: 85, bytesMax: null, qualityMin: 50 },
    space: 'srgb',
    profileVersion: 2,
    sharpening: { widthPx: 0.6, strength: 0.5 },
    pixelsPerInch: 72,
    background: { kind: 'as-photographed' },
    copySpace: null,
    naming: '',
    metadata,
    destination: toJob,
  },
  banner: {
    version: 1,
    title: 'Banner with words',
    description: 'Wide, for the head of a page: the left third stays free for words.',
    marks: ['hero'],
    size: { kind: 'exact', widthPx: 1920, heightPx: 1080, fillPercent: null },
    enlarge: false,
    format: { kind: 'jpeg', quality: 85, bytesMax: null, qualityMin: 50 },
    space: 'srgb',
    profileVersion: 2,
    sharpening: { widthPx: 0.6, strength: 0.5 },
    pixelsPerInch: 72,
    background: { kind: 'as-photographed' },
    copySpace: { side: 'left', sharePercent: 33 },
    naming: '',
    metadata,
    destination: toJob,
  },
  archive: {
    version: 1,
    title: 'Archive',
    description:
      'All that was chosen, every pixel, 16 bits without loss in a space that holds what the look can make.',
    marks: ['hero', 'select', 'alternate'],
    size: { kind: 'full' },
    enlarge: false,
    format: { kind: 'tiff', depth: 16, compression: 'none' },
    space: 'rec2020',
    profileVersion: 4,
    sharpening: { widthPx: 0.6, strength: 0 },
    pixelsPerInch: 300,
    background: { kind: 'as-photographed' },
    copySpace: null,
    naming: '{job}_{shot}_{camera}_{name}',
    metadata: { fields: [...metadataFields], privateFields: ['serial-numbers', 'capture-settings'] },
    destination: toJob,
  },
};

/** As it stands in a job's deliveries: by its short name, or by its title as somebody wrote it. */
export function specificationNamed(
  name: string,
): { readonly name: string; readonly specification: Specification } | null {
  const wanted = name.trim().toLowerCase();
  const found = Object.entries(specifications).find(
    ([short, { title }]) => short === wanted || title.toLowerCase() === wanted,
  );
  return found === undefined ? null : { name: found[0], specification: found[1] };
}
