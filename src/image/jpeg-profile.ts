/**
 * A JPEG file with an ICC profile put in: one APP2 segment behind SOI and, where there is one, the JFIF segment, which has
 * to come first (ITU-T T.871, 10.1). ICC.1:2022, annex B.4: "ICC_PROFILE", number 1 of 1, the profile.
 * The file must have no profile yet; its picture is not touched. Errors: RangeError where it is no JPEG, or the profile
 * does not fit into one segment.
 */
export function embedJpegProfile(jpeg: Uint8Array, profile: Uint8Array): Uint8Array<ArrayBuffer> {
  if (jpeg[0] !== 0xff || jpeg[1] !== 0xd8) throw new RangeError('embedJpegProfile: not a JPEG');
  if (profile.length > profileBytesMax) throw new RangeError('embedJpegProfile: the profile is too long');
  const hasJfif = jpeg[2] === 0xff && jpeg[3] === 0xe0;
  const at = 2 + (hasJfif ? 2 + (jpeg[4] ?? 0) * 256 + (jpeg[5] ?? 0) : 0);
  const length = 2 + identifier.length + profile.length;
  const head = [0xff, 0xe2, length >> 8, length & 255, ...identifier];
  const out = new Uint8Array(jpeg.length + 2 + length);
  out.set(jpeg.subarray(0, at));
  out.set(head, at);
  out.set(profile, at + head.length);
  out.set(jpeg.subarray(at), at + head.length + profile.length);
  return out;
}

/** "ICC_PROFILE", zero, chunk 1, of 1. */
const identifier: readonly number[] = [...new TextEncoder().encode('ICC_PROFILE'), 0, 1, 1];

/** A segment's length field counts itself and ends at 65,535. */
const profileBytesMax = 65_535 - 2 - identifier.length;
