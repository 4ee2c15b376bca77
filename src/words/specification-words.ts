import type { CopySpace, Mark } from '../facts/index.ts';
import { copySpaceWords } from './client-labels.ts';
import { markNames } from './names.ts';
import { sizePhrase } from './phrases.ts';

/** A delivery specification as far as it is put into words; what it may say is `docs/delivery.schema.json`. */
export interface SpecificationSaid {
  readonly marks: readonly Mark[];
  readonly size:
    | { readonly kind: 'full' }
    | { readonly kind: 'long-edge'; readonly px: number }
    | { readonly kind: 'box'; readonly widthPx: number; readonly heightPx: number }
    | {
        readonly kind: 'exact';
        readonly widthPx: number;
        readonly heightPx: number;
        readonly fillPercent: number | null;
      };
  readonly enlarge: boolean;
  readonly format:
    | {
        readonly kind: 'jpeg';
        readonly quality: number;
        readonly bytesMax: number | null;
        readonly qualityMin: number;
      }
    | { readonly kind: 'tiff'; readonly depth: number; readonly compression: string }
    | { readonly kind: 'png'; readonly depth: number }
    | { readonly kind: 'webp' | 'avif'; readonly quality: number };
  readonly space: string;
  readonly profileVersion: number;
  readonly sharpening: { readonly widthPx: number; readonly strength: number };
  readonly pixelsPerInch: number;
  readonly background:
    | { readonly kind: 'as-photographed' }
    | { readonly kind: 'white'; readonly leastCode: number; readonly extend: boolean };
  readonly copySpace: CopySpace | null;
  readonly naming: string;
  readonly metadata: { readonly fields: readonly string[]; readonly privateFields: readonly string[] };
  readonly destination: { readonly kind: string; readonly path?: unknown; readonly name?: unknown };
}

/** Colour spaces by the names that printers and agencies use for them. */
const spaceNames: Readonly<Record<string, string>> = {
  srgb: 'sRGB (IEC 61966-2-1)',
  'display-p3': 'Display P3',
  rec2020: 'ITU-R BT.2020 primaries',
  'adobe-rgb': 'Adobe RGB (1998)',
  romm: 'ROMM RGB (ISO 22028-2)',
};

/** Every value of a specification: what it is about, and what it says. */
export function specificationRows(said: SpecificationSaid): readonly (readonly [string, string])[] {
  return [
    ['Frames', `marked ${said.marks.map((mark) => markNames[mark].toLowerCase()).join(', ')}`],
    ['Size', sizeWords(said.size)],
    ['Too few pixels', said.enlarge ? 'enlarged, and that is said' : 'left smaller, and that is said'],
    ['Format', formatWords(said.format)],
    [
      'Colour space',
      `${spaceNames[said.space] ?? said.space}, with its ICC profile, version ${said.profileVersion}`,
    ],
    ['Sharpening', sharpeningWords(said.sharpening)],
    ['Resolution', `${said.pixelsPerInch} pixels per inch, where the format says it`],
    ['Background', backgroundWords(said.background)],
    ['Copy space', said.copySpace === null ? 'none' : copySpaceWords(said.copySpace)],
    ['Names', said.naming === '' ? 'as the job says' : said.naming],
    ['Metadata', listWords(said.metadata.fields)],
    ['Of the camera’s notes', listWords(said.metadata.privateFields)],
    ['Goes to', destinationWords(said.destination)],
  ];
}

function sizeWords(size: SpecificationSaid['size']): string {
  switch (size.kind) {
    case 'full':
      return 'every pixel there is';
    case 'long-edge':
      return `longer edge ${size.px} px`;
    case 'box':
      return `within ${size.widthPx} x ${size.heightPx} px`;
    case 'exact': {
      const fill = size.fillPercent === null ? '' : `, the subject fills ${size.fillPercent} %`;
      return `exactly ${size.widthPx} x ${size.heightPx} px${fill}`;
    }
  }
}

function formatWords(format: SpecificationSaid['format']): string {
  switch (format.kind) {
    case 'jpeg':
      return format.bytesMax === null
        ? `JPEG, quality ${format.quality}`
        : `JPEG, quality ${format.quality}, down to ${format.qualityMin} for at most ${sizePhrase(format.bytesMax)}`;
    case 'tiff':
      return `TIFF, ${format.depth} bit, ${format.compression === 'none' ? 'not compressed' : `compressed (${format.compression})`}`;
    case 'png':
      return `PNG, ${format.depth} bit`;
    default:
      return `${format.kind === 'webp' ? 'WebP' : 'AVIF'}, quality ${format.quality}`;
  }
}

function sharpeningWords({ widthPx, strength }: SpecificationSaid['sharpening']): string {
  return strength === 0 ? 'none' : `width ${widthPx} px, strength ${strength}`;
}

function backgroundWords(background: SpecificationSaid['background']): string {
  if (background.kind === 'as-photographed') return 'as photographed';
  const around = background.extend
    ? 'put around the picture where it does not fill its frame'
    : 'never put around it';
  return `white, ${background.leastCode} of 255 at least to the edge; ${around}`;
}

function listWords(names: readonly string[]): string {
  return names.length === 0 ? 'nothing' : names.map((name) => name.replaceAll('-', ' ')).join(', ');
}

function destinationWords({ kind, path, name }: SpecificationSaid['destination']): string {
  if (kind === 'job') return 'the job’s folder on this station';
  if (typeof name === 'string') return name;
  return typeof path === 'string' ? path : kind;
}
