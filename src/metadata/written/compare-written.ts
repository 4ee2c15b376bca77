import type { TagValue } from './tags-of-words.ts';

/** Tags that tell who owns a camera or which one it is; not handed over unless that is asked for. */
const serialTags = /^(?!XMP-iptcExt:|XMP-plus:).*(?:SerialNumber|OwnerName|ImageUniqueID|CameraID)/i;
const positionTags = /GPS/;
const makerTags = /^(?:MakerNotes|Makernote)|:MakerNote/;

export interface AllowedPrivate {
  readonly serialNumbers: boolean;
  readonly position: boolean;
}

/**
 * What is not as it was wanted, by name, in a report of ExifTool with groups (`-G1 -struct -n`): a value that differs or is missing,
 * a tag that nobody asked to hand over. Empty where the file says what it should.
 */
export function differencesIn(
  report: Readonly<Record<string, unknown>>,
  wanted: ReadonlyMap<string, TagValue>,
  allowed: AllowedPrivate,
): readonly string[] {
  const differing = [...wanted]
    .filter(([name]) => name !== 'IPTC:CodedCharacterSet')
    .filter(([name, value]) => !isSame(report[name], value))
    .map(([name]) => name);
  // ESC % G: UTF-8 (ISO 2022, IIM 1:90).
  if (wanted.has('IPTC:CodedCharacterSet') && !isSame(report['IPTC:CodedCharacterSet'], '\u001b%G'))
    differing.push('IPTC:CodedCharacterSet');
  const names = Object.keys(report);
  const private_ = names.filter(
    (name) =>
      makerTags.test(name) ||
      (!allowed.serialNumbers && serialTags.test(name)) ||
      (!allowed.position && holdsPosition(name, report[name])),
  );
  return [...differing, ...private_];
}

function holdsPosition(name: string, value: unknown): boolean {
  if (positionTags.test(name)) return true;
  return typeof value === 'object' && value !== null
    ? Object.entries(value).some(([field, inner]) => holdsPosition(field, inner))
    : false;
}

/** A text of digits alone is reported as a number, a list of one as that one. */
function isSame(reported: unknown, wanted: TagValue | string): boolean {
  if (reported === undefined || reported === null) return false;
  if (typeof wanted === 'string') {
    const [only, ...more] = Array.isArray(reported) ? reported : [reported];
    if (more.length > 0) return false;
    return typeof only === 'number' ? only === Number(wanted) : String(only) === wanted;
  }
  if (Array.isArray(wanted)) {
    const list: readonly unknown[] = Array.isArray(reported) ? reported : [reported];
    const items: readonly (string | Readonly<Record<string, string>>)[] = wanted;
    return list.length === items.length && items.every((item, index) => isSame(list[index], item));
  }
  if (typeof reported !== 'object') return false;
  const fields = new Map<string, unknown>(Object.entries(reported));
  const entries = Object.entries(wanted);
  return fields.size === entries.length && entries.every(([field, text]) => isSame(fields.get(field), text));
}
