/** formats: bytes of a file that may still be arriving → structure, previews, tags, and whether it is whole. */
export { type ByteRange, type ByteSource, sourceOfBytes } from './byte-source.ts';
export type { ContentKind } from './content-kind.ts';
export { type DngOpcode, type OpcodeList, opcodeLimits, parseOpcodes } from './dng-opcodes.ts';
export type { DngTags } from './dng-tags.ts';
export { inspect } from './inspect.ts';
export { type ArrivedBytes, inspectArrived } from './inspect-arrived.ts';
export type { Inspection, JpegProgress } from './inspection.ts';
export { type Issue, type IssueCode, issueCodes } from './issue.ts';
export { defaultLimits, type Limits } from './limits.ts';
export { decodeLossless, type LosslessPieces } from './lossless/decode-lossless.ts';
export { noTags, type PictureTags } from './picture-tags.ts';
export { firstViewLongEdgePx, type Preview, pickFirstView } from './preview.ts';
export { SparseSource, sparseBytesMax } from './sparse-source.ts';
export type { StoredSamples } from './stored-samples.ts';
