import type { CompletedPart } from '@aws-sdk/client-s3';
import type { FileToSend, SendWatch } from '../open-place.ts';
import { s3Name } from './failures.ts';
import { type PartHash, readPart } from './hashes.ts';
import { type S3Object, unlessUnknown } from './object.ts';

/**
 * A file in parts, each hashed by the service as it comes. Goes on with the upload that was noted: parts that it has, by number, size and
 * SHA-256, are not sent again.
 */
export async function sendParts(
  object: S3Object,
  file: FileToSend,
  parts: readonly PartHash[],
  watch: SendWatch,
): Promise<void> {
  const { s3, client, named } = object;
  const { signal, progress } = watch;
  const begun = await begunUpload(object, parts, watch);
  const UploadId = begun.uploadId;
  const done = new Map(begun.done);
  const bytesThere = (): number =>
    parts.reduce((sum, { number, bytes }) => sum + (done.has(number) ? bytes : 0), 0);
  progress(bytesThere());
  for (const part of parts) {
    signal.throwIfAborted();
    if (done.has(part.number)) continue;
    const Body = await readPart(file, part);
    const answer = await client.send(
      new s3.UploadPartCommand({
        ...named,
        UploadId,
        PartNumber: part.number,
        Body,
        ContentLength: Body.length,
        ChecksumSHA256: part.sha256,
      }),
      { abortSignal: signal },
    );
    done.set(part.number, completed(part, answer.ETag));
    progress(bytesThere());
  }
  const Parts = parts.flatMap(({ number }) => done.get(number) ?? []);
  await unlessUnknown((onlyIfNew) =>
    client.send(
      new s3.CompleteMultipartUploadCommand({ ...named, UploadId, MultipartUpload: { Parts }, ...onlyIfNew }),
      { abortSignal: signal },
    ),
  );
}

interface BegunUpload {
  readonly uploadId: string;
  readonly done: ReadonlyMap<number, CompletedPart>;
}

async function begunUpload(
  object: S3Object,
  parts: readonly PartHash[],
  { token, keepToken, signal }: SendWatch,
): Promise<BegunUpload> {
  const noted = token();
  const known = noted === null ? null : await partsThere(object, noted, parts, signal);
  if (noted !== null && known !== null) return { uploadId: noted, done: known };
  const { s3, client, named } = object;
  const begun = await client.send(
    new s3.CreateMultipartUploadCommand({
      ...named,
      ChecksumAlgorithm: 'SHA256',
      ChecksumType: 'COMPOSITE',
    }),
    { abortSignal: signal },
  );
  const uploadId = begun.UploadId ?? '';
  await keepToken(uploadId);
  return { uploadId, done: new Map() };
}

/** Null where the service knows the upload no more: it was ended, or it let go of it. */
async function partsThere(
  { s3, client, named }: S3Object,
  UploadId: string,
  parts: readonly PartHash[],
  signal: AbortSignal,
): Promise<ReadonlyMap<number, CompletedPart> | null> {
  const wanted = new Map(parts.map((part) => [part.number, part]));
  const found = new Map<number, CompletedPart>();
  let marker: string | undefined;
  do {
    const page = await client
      .send(
        new s3.ListPartsCommand({
          ...named,
          UploadId,
          ...(marker === undefined ? {} : { PartNumberMarker: marker }),
        }),
        { abortSignal: signal },
      )
      .catch((thrown: unknown) => {
        if (s3Name(thrown) === 'NoSuchUpload') return null;
        throw thrown;
      });
    if (page === null) return null;
    for (const { PartNumber, Size, ChecksumSHA256, ETag } of page.Parts ?? []) {
      const part = wanted.get(PartNumber ?? 0);
      if (part !== undefined && Size === part.bytes && ChecksumSHA256 === part.sha256)
        found.set(part.number, completed(part, ETag));
    }
    marker = page.IsTruncated === true ? page.NextPartNumberMarker : undefined;
  } while (marker !== undefined);
  return found;
}

function completed({ number, sha256 }: PartHash, etag: string | undefined): CompletedPart {
  return { PartNumber: number, ChecksumSHA256: sha256, ...(etag === undefined ? {} : { ETag: etag }) };
}
