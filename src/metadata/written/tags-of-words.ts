import { type IimDataset, iimText } from './iim.ts';
import {
  digitalSourceScheme,
  type PictureWords,
  type WrittenContact,
  type WrittenPlace,
} from './picture-words.ts';

/** A structure of XMP: names of its fields without their namespace. */
export type TagStruct = Readonly<Record<string, string>>;
export type TagValue = string | readonly string[] | TagStruct | readonly TagStruct[];

/** What is to be written: values by ExifTool's names with their group (family 1); a value that is nothing is not there. */
export interface WrittenTags {
  readonly tags: ReadonlyMap<string, TagValue>;
  /** Datasets of IIM whose text was cut, since it has more bytes than they hold. */
  readonly cut: readonly IimDataset[];
}

/**
 * The same words in each form that a file can carry: XMP and IIM after the IPTC Photo Metadata Standard 2023.2 (its mapping of
 * properties), Exif as the Metadata Working Group's guidelines 2.0 (chapter 5, from memory) pair description, creator, copyright
 * and date with them. IIM in UTF-8, marked as such (1:90). `holdsIim`: JPEG and TIFF do; PNG, WebP and AVIF have no place for it.
 */
export function tagsOfWords(words: PictureWords, holdsIim: boolean): WrittenTags {
  const tags = new Map<string, TagValue>();
  const put = (name: string, value: TagValue): void => {
    if (isSaid(value)) tags.set(name, value);
  };
  putXmp(words, put);
  putExif(words, put);
  const { iim, cut } = iimOf(words);
  if (!holdsIim || iim.size === 0) return { tags, cut: [] };
  tags.set('IPTC:CodedCharacterSet', 'UTF8');
  tags.set('IPTC:ApplicationRecordVersion', '4');
  for (const [dataset, value] of iim) tags.set(`IPTC:${dataset}`, value);
  return { tags, cut };
}

type Put = (name: string, value: TagValue) => void;

function putXmp(words: PictureWords, put: Put): void {
  put('XMP-dc:Title', words.title);
  put('XMP-dc:Description', words.caption);
  put('XMP-dc:Creator', words.creators);
  put('XMP-dc:Rights', words.copyright);
  put('XMP-dc:Subject', words.keywords);
  put('XMP-photoshop:Headline', words.headline);
  put('XMP-photoshop:CaptionWriter', words.captionWriter);
  put('XMP-photoshop:AuthorsPosition', words.creatorTitle);
  put('XMP-photoshop:Credit', words.credit);
  put('XMP-photoshop:Source', words.source);
  put('XMP-photoshop:Instructions', words.instructions);
  put('XMP-photoshop:TransmissionReference', words.jobId);
  put('XMP-photoshop:DateCreated', exifDate(words.createdAt, true));
  put('XMP-xmpRights:UsageTerms', words.usageTerms);
  put('XMP-xmpRights:WebStatement', words.rightsPage);
  put('XMP-iptcCore:CreatorContactInfo', contactOf(words.contact));
  put('XMP-iptcCore:AltTextAccessibility', words.altText);
  put('XMP-iptcCore:ExtDescrAccessibility', words.extendedDescription);
  put('XMP-iptcExt:PersonInImage', words.persons);
  put(
    'XMP-iptcExt:DigitalSourceType',
    words.digitalSourceType === '' ? '' : digitalSourceScheme + words.digitalSourceType,
  );
  put('XMP-iptcExt:LocationCreated', [placeOf(words.placeCreated)].filter(isSaid));
  put('XMP-iptcExt:LocationShown', words.placesShown.map(placeOf).filter(isSaid));
  const place = legacyPlace(words);
  put('XMP-iptcCore:Location', place.sublocation);
  put('XMP-photoshop:City', place.city);
  put('XMP-photoshop:State', place.province);
  put('XMP-photoshop:Country', place.country);
  put('XMP-iptcCore:CountryCode', place.countryCode);
}

/** Several creators are parted by a semicolon (MWG). Exif's text is UTF-8 here, as those guidelines have it. */
function putExif(words: PictureWords, put: Put): void {
  put('IFD0:ImageDescription', words.caption);
  put('IFD0:Artist', words.creators.join('; '));
  put('IFD0:Copyright', words.copyright);
  put('ExifIFD:DateTimeOriginal', exifDate(words.createdAt, false));
  put('ExifIFD:OffsetTimeOriginal', words.createdAt.slice(19));
}

function iimOf(words: PictureWords): {
  readonly iim: ReadonlyMap<string, TagValue>;
  readonly cut: readonly IimDataset[];
} {
  const place = legacyPlace(words);
  const texts: readonly (readonly [IimDataset, string | readonly string[]])[] = [
    ['ObjectName', words.title],
    ['Headline', words.headline],
    ['Caption-Abstract', words.caption],
    ['Writer-Editor', words.captionWriter],
    ['Keywords', words.keywords],
    ['By-line', words.creators],
    ['By-lineTitle', words.creatorTitle],
    ['Credit', words.credit],
    ['Source', words.source],
    ['CopyrightNotice', words.copyright],
    ['SpecialInstructions', words.instructions],
    ['OriginalTransmissionReference', words.jobId],
    ['Sub-location', place.sublocation],
    ['City', place.city],
    ['Province-State', place.province],
    ['Country-PrimaryLocationName', place.country],
    ['Country-PrimaryLocationCode', place.countryCode],
  ];
  const iim = new Map<string, TagValue>();
  const cut: IimDataset[] = [];
  for (const [dataset, value] of texts) {
    const whole = typeof value === 'string' ? [value] : value;
    const fitting = whole.map((text) => iimText(dataset, text));
    if (fitting.some((text, index) => text !== whole[index])) cut.push(dataset);
    // Two keywords that are alike up to there are one.
    const kept = [...new Set(fitting)].filter((text) => text !== '');
    if (kept.length > 0) iim.set(dataset, typeof value === 'string' ? (kept[0] ?? '') : kept);
  }
  if (words.createdAt !== '') {
    iim.set('DateCreated', exifDate(words.createdAt, false).slice(0, 10));
    iim.set('TimeCreated', words.createdAt.slice(11));
  }
  return { iim, cut };
}

/** The fields of IPTC Core that know one place only: what is shown, else where it was taken. */
function legacyPlace({ placesShown, placeCreated }: PictureWords): WrittenPlace {
  return placesShown[0] ?? placeCreated;
}

function placeOf({ sublocation, city, province, country, countryCode }: WrittenPlace): TagStruct {
  return said({
    Sublocation: sublocation,
    City: city,
    ProvinceState: province,
    CountryName: country,
    CountryCode: countryCode,
  });
}

function contactOf(contact: WrittenContact): TagStruct {
  const { address, city, province, postcode, country, email, phone, website } = contact;
  return said({
    CiAdrExtadr: address,
    CiAdrCity: city,
    CiAdrRegion: province,
    CiAdrPcode: postcode,
    CiAdrCtry: country,
    CiEmailWork: email,
    CiTelWork: phone,
    CiUrlWork: website,
  });
}

function said(fields: TagStruct): TagStruct {
  return Object.fromEntries(Object.entries(fields).filter(([, text]) => text !== ''));
}

function isSaid(value: TagValue): boolean {
  return typeof value === 'string' ? value !== '' : Object.keys(value).length > 0;
}

/** `2026-11-05T10:12:13+01:00` as Exif writes it. */
function exifDate(createdAt: string, withZone: boolean): string {
  if (createdAt === '') return '';
  const local = createdAt.slice(0, 19).replaceAll('-', ':').replace('T', ' ');
  return withZone ? local + createdAt.slice(19) : local;
}
