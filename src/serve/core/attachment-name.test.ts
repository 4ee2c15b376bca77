import { expect, test } from 'vitest';
import { attachmentDisposition } from './attachment-name.ts';

test('the names of RFC 8187 section 3.2.3 and RFC 6266 section 5 are written as there', () => {
  // Percent-encoding is compared without case of the digits (RFC 3986 section 2.1); the RFCs write small ones.
  expect(attachmentDisposition('£ and € rates').toLowerCase()).toContain(
    "filename*=utf-8''%c2%a3%20and%20%e2%82%ac%20rates",
  );
  expect(attachmentDisposition('€ rates').toLowerCase()).toContain("filename*=utf-8''%e2%82%ac%20rates");
});

test('a camera’s name stays as it is', () => {
  expect(attachmentDisposition('ABCD0012.DNG')).toBe(
    `attachment; filename="ABCD0012.DNG"; filename*=UTF-8''ABCD0012.DNG`,
  );
});

test('no name can end the quoted string or the header line', () => {
  const header = attachmentDisposition('a"b\\c%41\r\nSet-Cookie: x;ü');
  expect(header).toMatch(/^attachment; filename="[^"\\\r\n]*"; filename\*=UTF-8''[A-Za-z0-9!#$&+.^_`|~%-]*$/);
  expect(decodeURIComponent(header.slice(header.indexOf("''") + 2))).toBe('a"b\\c%41\r\nSet-Cookie: x;ü');
});
