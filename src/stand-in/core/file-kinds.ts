/** The files a frame can have, with DCF's extensions for them where it has any. */
export const fileKinds = ['raw', 'jpeg', 'xmp'] as const;
export type FileKind = (typeof fileKinds)[number];

export const fileExtensions: Readonly<Record<FileKind, string>> = { raw: 'DNG', jpeg: 'JPG', xmp: 'XMP' };
