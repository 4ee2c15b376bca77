/** Entity tags and the conditions on them: RFC 9110 sections 8.8.3, 13.1.1, 13.1.2. */

/** More tags than any client of ours sends; a longer list is read up to here. */
export const tagsMax = 32;

/** A strong tag around opaque text of letters, digits and `-._:`; other characters are left out. */
export function strongTag(opaque: string): string {
  return `"${opaque.replace(/[^\w.:-]/g, '')}"`;
}

/** Whether `If-None-Match` names the tag by weak comparison (section 13.1.2): then the answer is 304. */
export function namesTag(header: string | undefined, tag: string): boolean {
  if (header === undefined) return false;
  if (header.trim() === '*') return true;
  return readTags(header).some((each) => each.text === tag);
}

/**
 * The opaque texts of the strong tags in `If-Match` (weak ones never match, section 13.1.1); `any` for `*` and where
 * there is no header.
 */
export function matchableTags(header: string | undefined): 'any' | readonly string[] {
  if (header === undefined || header.trim() === '*') return 'any';
  return readTags(header)
    .filter((tag) => !tag.weak)
    .map((tag) => tag.text.slice(1, -1));
}

/** Whether `If-Range` is this very strong tag (section 13.1.5); a date never is, since no date is sent. */
export function isSameTag(header: string, tag: string): boolean {
  return header.trim() === tag;
}

function readTags(header: string): readonly { readonly weak: boolean; readonly text: string }[] {
  const tags = [];
  for (const match of header.matchAll(/(W\/)?("[\x21\x23-\x7e\x80-\xff]*")/g)) {
    if (tags.length === tagsMax) break;
    tags.push({ weak: match[1] !== undefined, text: match[2] ?? '' });
  }
  return tags;
}
