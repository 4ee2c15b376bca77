import type { S3Client } from '@aws-sdk/client-s3';
import type { DestinationPlace } from '../../contract/index.ts';
import { SendFailure } from '../core/failure.ts';
import { joined } from '../core/names.ts';
import { planParts } from '../core/parts.ts';
import type { FileToSend, OpenPlace, Proof, SendWatch, Sent } from '../open-place.ts';
import { s3Failure, s3Name, s3Status } from './failures.ts';
import { compositeHash, hashesOf, readPart, sha256Base64 } from './hashes.ts';
import { type S3Module, type S3Object, unlessUnknown } from './object.ts';
import { sendParts } from './send-parts.ts';

export type S3Address = Extract<DestinationPlace, { readonly kind: 's3' }>;
/** The client is most of a megabyte of code: loaded when something is sent there, not when a station starts. */
export async function openS3(
  address: S3Address,
  secret: string,
  silenceMsMax: number,
  below: readonly string[],
): Promise<S3Place> {
  // It would warn of the Node.js version on the terminal of somebody who cannot do anything about it.
  process.env.AWS_SDK_JS_NODE_VERSION_SUPPORT_WARNING_DISABLED ??= 'true';
  const s3 = await import('@aws-sdk/client-s3');
  const client = new s3.S3Client({
    region: address.region,
    ...(address.endpoint === null ? {} : { endpoint: address.endpoint }),
    forcePathStyle: address.pathStyle,
    credentials: { accessKeyId: address.accessKeyId, secretAccessKey: secret },
    // Whoever sends the file tries again, and says so.
    maxAttempts: 1,
    // Checksums are given with each call by us; others would be made twice.
    requestChecksumCalculation: 'WHEN_REQUIRED',
    responseChecksumValidation: 'WHEN_REQUIRED',
    requestHandler: { connectionTimeout: silenceMsMax, requestTimeout: silenceMsMax * 4 },
  });
  return new S3Place(s3, client, address, below);
}

/**
 * A bucket. What is sent there is hashed by the service as it comes (SHA-256), and the hash of what it has is compared with the file's
 * in the end; a service that tells none is asked for the bytes.
 */
export class S3Place implements OpenPlace {
  readonly #s3: S3Module;
  readonly #client: S3Client;
  readonly #address: S3Address;
  readonly #below: readonly string[];

  constructor(s3: S3Module, client: S3Client, address: S3Address, below: readonly string[]) {
    this.#s3 = s3;
    this.#client = client;
    this.#address = address;
    this.#below = below;
  }

  async send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    try {
      return await this.#send(file, watch);
    } catch (thrown) {
      watch.signal.throwIfAborted();
      throw s3Failure(thrown, this.#host, file.name);
    }
  }

  /** Parts of an upload that is not ended are paid for: it is taken back. */
  async letGo(file: FileToSend, token: string | null): Promise<void> {
    if (token === null) return;
    const { s3, client, named } = this.#object(file.name);
    await client
      .send(new s3.AbortMultipartUploadCommand({ ...named, UploadId: token }))
      .catch((thrown: unknown) => {
        if (s3Name(thrown) !== 'NoSuchUpload') throw s3Failure(thrown, this.#host, file.name);
      });
  }

  async remove(name: string): Promise<void> {
    const { s3, client, named } = this.#object(name);
    await client.send(new s3.DeleteObjectCommand(named)).catch((thrown: unknown) => {
      throw s3Failure(thrown, this.#host, name);
    });
  }

  close(): void {
    this.#client.destroy();
  }

  get #host(): string {
    const { endpoint, region } = this.#address;
    return endpoint === null ? region : new URL(endpoint).host;
  }

  #object(name: string): S3Object {
    const { bucket, prefix } = this.#address;
    // A key has no slash in front.
    const key = joined(prefix, ...this.#below, name).replace(/^\/+/, '');
    return { s3: this.#s3, client: this.#client, named: { Bucket: bucket, Key: key } };
  }

  async #send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    const object = this.#object(file.name);
    const where = `s3://${object.named.Bucket}/${object.named.Key}`;
    const { whole, parts } = await hashesOf(file, planParts(file.bytes));
    const expected = parts === null ? whole : compositeHash(parts);
    const before = await this.#proofOf(object, file, expected, watch.signal);
    if (before !== null) return { where, proof: before };
    try {
      if (parts === null) await this.#sendWhole(object, file, whole, watch);
      else await sendParts(object, file, parts, watch);
    } catch (thrown) {
      // Somebody's object came there meanwhile, or ours did and the answer was lost: looking there says which.
      if (s3Status(thrown) !== 412) throw thrown;
    }
    const proof = await this.#proofOf(object, file, expected, watch.signal);
    if (proof === null) throw new SendFailure('again', 'send.other-bytes', { name: file.name });
    return { where, proof };
  }

  async #sendWhole(
    { s3, client, named }: S3Object,
    file: FileToSend,
    whole: string,
    { signal, progress }: SendWatch,
  ): Promise<void> {
    const Body = await readPart(file, { number: 1, start: 0, bytes: file.bytes });
    await unlessUnknown((onlyIfNew) =>
      client.send(
        new s3.PutObjectCommand({
          ...named,
          Body,
          ContentLength: Body.length,
          ChecksumSHA256: whole,
          ...onlyIfNew,
        }),
        { abortSignal: signal },
      ),
    );
    progress(file.bytes);
  }

  /** How it is known that the object is the file; null where there is none. Rejects `send.name-taken` where it is another. */
  async #proofOf(
    { s3, client, named }: S3Object,
    file: FileToSend,
    expected: string,
    signal: AbortSignal,
  ): Promise<Proof | null> {
    const head = await client
      .send(new s3.HeadObjectCommand({ ...named, ChecksumMode: 'ENABLED' }), { abortSignal: signal })
      .catch((thrown: unknown) => {
        if (s3Status(thrown) === 404) return null;
        throw thrown;
      });
    if (head === null) return null;
    const taken = new SendFailure('file', 'send.name-taken', { name: file.name });
    if (head.ContentLength !== file.bytes) throw taken;
    if (head.ChecksumSHA256 === expected) return 'checksum';
    // No checksum, or one of other parts: the bytes themselves say it.
    const got = await client.send(new s3.GetObjectCommand(named), { abortSignal: signal });
    if (got.Body === undefined) throw taken;
    const stream: AsyncIterable<Uint8Array> = got.Body.transformToWebStream();
    if ((await sha256Base64(stream)) !== Buffer.from(file.sha256, 'hex').toString('base64')) throw taken;
    return 'read-back';
  }
}
