import type { SidecarWords } from '../facts/index.ts';
import { cleanText } from './text.ts';
import { withoutUndefined } from './without-undefined.ts';

/** The tags that {@link sidecarWordsOf} understands, as ExifTool is asked for them. */
export const sidecarTags: readonly string[] = [
  'XMP-xmp:Rating#',
  'XMP-dc:Title',
  'XMP-dc:Description',
  'XMP-dc:Creator',
  'XMP-dc:Rights',
];

/** What a reader reports of a sidecar, as words. A rating outside -1 to 5 (ISO 16684-1, 8.4) is none. */
export function sidecarWordsOf(report: Readonly<Record<string, unknown>>): SidecarWords {
  return withoutUndefined({
    rating: ratingIn(report.Rating),
    title: textIn(report.Title),
    description: textIn(report.Description),
    creator: textIn(report.Creator),
    rights: textIn(report.Rights),
  });
}

function ratingIn(value: unknown): number | undefined {
  return typeof value === 'number' && value >= -1 && value <= 5 ? value : undefined;
}

/** Several creators come as a list. A number that was written as a text comes as a number. */
function textIn(value: unknown): string | undefined {
  const parts = Array.isArray(value) ? value : [value];
  const texts = parts.filter((part) => typeof part === 'string' || typeof part === 'number').map(String);
  return texts.length === 0 ? undefined : cleanText(texts.join(', '));
}
