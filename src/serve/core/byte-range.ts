/**
 * Range requests: RFC 9110 section 14. One range is served; a request for several gets the whole file, which section
 * 14.2 allows ("A server MAY ignore the Range header field").
 */
export type RangeAnswer =
  /** 200: no range asked for, or one that is ignored. */
  | { readonly kind: 'whole' }
  /** 206: both ends included, 0-based. */
  | { readonly kind: 'part'; readonly firstByte: number; readonly lastByte: number }
  /** 416: nothing of what was asked for exists. */
  | { readonly kind: 'unsatisfiable' };

/** What a `Range` header asks of a file of `sizeBytes`. A header that breaks the grammar is ignored (section 14.2). */
export function answerRange(header: string | undefined, sizeBytes: number): RangeAnswer {
  if (header === undefined) return { kind: 'whole' };
  const match = /^bytes=[ \t]*(\d{0,16})-(\d{0,16})[ \t]*$/i.exec(header);
  const [, first, last] = match ?? [];
  if (first === undefined || last === undefined || (first === '' && last === '')) return { kind: 'whole' };
  return first === '' ? suffix(Number(last), sizeBytes) : fromTo(Number(first), last, sizeBytes);
}

/** `-n`: the last n bytes, all of them where there are fewer (section 14.1.2). */
function suffix(lengthBytes: number, sizeBytes: number): RangeAnswer {
  if (lengthBytes === 0 || sizeBytes === 0) return { kind: 'unsatisfiable' };
  return { kind: 'part', firstByte: Math.max(0, sizeBytes - lengthBytes), lastByte: sizeBytes - 1 };
}

/** `a-b` or `a-`: a last position past the end, or none, means the end (section 14.1.2). */
function fromTo(firstByte: number, last: string, sizeBytes: number): RangeAnswer {
  const lastByte = last === '' ? Number.POSITIVE_INFINITY : Number(last);
  if (lastByte < firstByte) return { kind: 'whole' };
  if (firstByte >= sizeBytes) return { kind: 'unsatisfiable' };
  return { kind: 'part', firstByte, lastByte: Math.min(lastByte, sizeBytes - 1) };
}
